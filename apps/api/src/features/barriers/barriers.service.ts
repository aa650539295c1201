import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import {
  barrierDetails,
  barrierRow,
  type BarrierRow,
  saveBlocks,
  toBarrier,
} from '#persistence/yard/barriers.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { deletedOne } from '../../platform/database/delete-one.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { withoutRevision } from '../../platform/shapes/record.ts';
import { assertFits, withRecord } from '../soundness/soundness.service.ts';
import type { Barrier, BarrierInput, BarrierPatch } from './barriers.contract.ts';

@Injectable()
export class BarriersService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<Barrier>> {
    const { where, ...rest } = pageArgs(page);
    return this.database.inYard(viewer, async (tx) => {
      const rows = await tx.barrier.findMany({
        where: { yardId: viewer.yardId, ...where },
        ...rest,
        include: barrierDetails,
      });
      return toPage(rows, page, show);
    });
  }

  get(viewer: Viewer, id: string): Promise<Barrier> {
    return this.database.inYard(viewer, (tx) => find(tx, viewer.yardId, id));
  }

  create(viewer: Viewer, input: BarrierInput): Promise<Barrier> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'barriers', input));
      await tx.barrier.create({ data: barrierRow(yardId, input) });
      await saveBlocks(tx, yardId, input);
      await appendEvent(tx, viewer, 'barrier-added', 'barrier', input.id);
      return find(tx, yardId, input.id);
    });
  }

  update(viewer: Viewer, id: string, revision: number, patch: BarrierPatch): Promise<Barrier> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const changed = withoutRevision(patched(await find(tx, yardId, id), patch));
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'barriers', changed));
      const where = { yardId, id, revision };
      changedOne(await tx.barrier.updateMany({ where, data: barrierRow(yardId, changed) }));
      await saveBlocks(tx, yardId, changed);
      await appendEvent(tx, viewer, 'barrier-changed', 'barrier', id);
      return find(tx, yardId, id);
    });
  }

  remove(viewer: Viewer, id: string, revision: number): Promise<void> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await find(tx, yardId, id);
      await deletedOne(tx.barrier.deleteMany({ where: { yardId, id, revision } }));
      await appendEvent(tx, viewer, 'barrier-removed', 'barrier', id);
    });
  }
}

async function find(tx: Tx, yardId: string, id: string): Promise<Barrier> {
  const row = await tx.barrier.findUnique({
    where: { yardId_id: { yardId, id } },
    include: barrierDetails,
  });
  if (!row) throw new DomainError('record.missing', `There is no barrier "${id}".`);
  return show(row);
}

const show = (row: BarrierRow): Barrier => ({ ...toBarrier(row), revision: row.revision });
