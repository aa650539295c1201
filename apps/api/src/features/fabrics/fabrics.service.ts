import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import type { Fabric as FabricRow } from '#persistence/generated/client.ts';
import { fabricRow, toFabric } from '#persistence/yard/fabrics.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { deletedOne } from '../../platform/database/delete-one.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { withoutRevision } from '../../platform/shapes/record.ts';
import { assertFits, withRecord } from '../soundness/soundness.service.ts';
import type { Fabric, FabricInput, FabricPatch } from './fabrics.contract.ts';

@Injectable()
export class FabricsService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<Fabric>> {
    const { where, ...rest } = pageArgs(page);
    return this.database.inYard(viewer, async (tx) => {
      const rows = await tx.fabric.findMany({
        where: { yardId: viewer.yardId, ...where },
        ...rest,
      });
      return toPage(rows, page, show);
    });
  }

  get(viewer: Viewer, id: string): Promise<Fabric> {
    return this.database.inYard(viewer, (tx) => find(tx, viewer.yardId, id));
  }

  create(viewer: Viewer, input: FabricInput): Promise<Fabric> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'fabrics', input));
      await tx.fabric.create({ data: fabricRow(yardId, input) });
      await appendEvent(tx, viewer, 'fabric-added', 'fabric', input.id);
      return find(tx, yardId, input.id);
    });
  }

  update(viewer: Viewer, id: string, revision: number, patch: FabricPatch): Promise<Fabric> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const changed = withoutRevision(patched(await find(tx, yardId, id), patch));
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'fabrics', changed));
      const where = { yardId, id, revision };
      changedOne(await tx.fabric.updateMany({ where, data: fabricRow(yardId, changed) }));
      await appendEvent(tx, viewer, 'fabric-changed', 'fabric', id);
      return find(tx, yardId, id);
    });
  }

  remove(viewer: Viewer, id: string, revision: number): Promise<void> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await find(tx, yardId, id);
      await deletedOne(tx.fabric.deleteMany({ where: { yardId, id, revision } }));
      await appendEvent(tx, viewer, 'fabric-removed', 'fabric', id);
    });
  }
}

async function find(tx: Tx, yardId: string, id: string): Promise<Fabric> {
  const row = await tx.fabric.findUnique({ where: { yardId_id: { yardId, id } } });
  if (!row) throw new DomainError('record.missing', `There is no fabric "${id}".`);
  return show(row);
}

const show = (row: FabricRow): Fabric => ({ ...toFabric(row), revision: row.revision });
