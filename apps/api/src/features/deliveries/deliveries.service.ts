import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import type { Delivery as DeliveryRow } from '#persistence/generated/client.ts';
import { deliveryRow, toDelivery } from '#persistence/yard/outside.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { deletedOne } from '../../platform/database/delete-one.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { withoutRevision } from '../../platform/shapes/record.ts';
import { assertFits, withRecord } from '../soundness/soundness.service.ts';
import type { Delivery, DeliveryInput, DeliveryPatch } from './deliveries.contract.ts';

@Injectable()
export class DeliveriesService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<Delivery>> {
    const { where, ...rest } = pageArgs(page);
    return this.database.inYard(viewer, async (tx) => {
      const rows = await tx.delivery.findMany({
        where: { yardId: viewer.yardId, ...where },
        ...rest,
      });
      return toPage(rows, page, show);
    });
  }

  get(viewer: Viewer, id: string): Promise<Delivery> {
    return this.database.inYard(viewer, (tx) => find(tx, viewer.yardId, id));
  }

  create(viewer: Viewer, input: DeliveryInput): Promise<Delivery> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'deliveries', input));
      await tx.delivery.create({ data: deliveryRow(yardId, input) });
      await appendEvent(tx, viewer, 'delivery-added', 'delivery', input.id);
      return find(tx, yardId, input.id);
    });
  }

  update(viewer: Viewer, id: string, revision: number, patch: DeliveryPatch): Promise<Delivery> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const changed = withoutRevision(patched(await find(tx, yardId, id), patch));
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'deliveries', changed));
      const where = { yardId, id, revision };
      changedOne(await tx.delivery.updateMany({ where, data: deliveryRow(yardId, changed) }));
      await appendEvent(tx, viewer, 'delivery-changed', 'delivery', id);
      return find(tx, yardId, id);
    });
  }

  remove(viewer: Viewer, id: string, revision: number): Promise<void> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await find(tx, yardId, id);
      await deletedOne(tx.delivery.deleteMany({ where: { yardId, id, revision } }));
      await appendEvent(tx, viewer, 'delivery-removed', 'delivery', id);
    });
  }
}

async function find(tx: Tx, yardId: string, id: string): Promise<Delivery> {
  const row = await tx.delivery.findUnique({ where: { yardId_id: { yardId, id } } });
  if (!row) throw new DomainError('record.missing', `There is no delivery "${id}".`);
  return show(row);
}

const show = (row: DeliveryRow): Delivery => ({ ...toDelivery(row), revision: row.revision });
