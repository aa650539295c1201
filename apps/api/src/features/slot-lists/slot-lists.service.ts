import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import type { SlotList as SlotListRow } from '#persistence/generated/client.ts';
import { slotListRow, toSlotList } from '#persistence/yard/outside.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { deletedOne } from '../../platform/database/delete-one.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { withoutRevision } from '../../platform/shapes/record.ts';
import { assertFits, withRecord } from '../soundness/soundness.service.ts';
import type { SlotList, SlotListInput, SlotListPatch } from './slot-lists.contract.ts';

@Injectable()
export class SlotListsService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<SlotList>> {
    const { where, ...rest } = pageArgs(page);
    return this.database.inYard(viewer, async (tx) => {
      const rows = await tx.slotList.findMany({
        where: { yardId: viewer.yardId, ...where },
        ...rest,
      });
      return toPage(rows, page, show);
    });
  }

  get(viewer: Viewer, id: string): Promise<SlotList> {
    return this.database.inYard(viewer, (tx) => find(tx, viewer.yardId, id));
  }

  create(viewer: Viewer, input: SlotListInput): Promise<SlotList> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'slotLists', input));
      await tx.slotList.create({ data: slotListRow(yardId, input) });
      await appendEvent(tx, viewer, 'slot-list-added', 'slot-list', input.id);
      return find(tx, yardId, input.id);
    });
  }

  update(viewer: Viewer, id: string, revision: number, patch: SlotListPatch): Promise<SlotList> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const changed = withoutRevision(patched(await find(tx, yardId, id), patch));
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'slotLists', changed));
      const where = { yardId, id, revision };
      changedOne(await tx.slotList.updateMany({ where, data: slotListRow(yardId, changed) }));
      await appendEvent(tx, viewer, 'slot-list-changed', 'slot-list', id);
      return find(tx, yardId, id);
    });
  }

  remove(viewer: Viewer, id: string, revision: number): Promise<void> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await find(tx, yardId, id);
      await deletedOne(tx.slotList.deleteMany({ where: { yardId, id, revision } }));
      await appendEvent(tx, viewer, 'slot-list-removed', 'slot-list', id);
    });
  }
}

async function find(tx: Tx, yardId: string, id: string): Promise<SlotList> {
  const row = await tx.slotList.findUnique({ where: { yardId_id: { yardId, id } } });
  if (!row) throw new DomainError('record.missing', `There is no slot list "${id}".`);
  return show(row);
}

const show = (row: SlotListRow): SlotList => ({ ...toSlotList(row), revision: row.revision });
