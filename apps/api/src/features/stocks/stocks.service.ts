import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import type { Stock as StockRow } from '#persistence/generated/client.ts';
import { stockRow, toStock } from '#persistence/yard/supply.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { deletedOne } from '../../platform/database/delete-one.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { withoutRevision } from '../../platform/shapes/record.ts';
import { assertFits, withRecord } from '../soundness/soundness.service.ts';
import type { Stock, StockInput, StockPatch } from './stocks.contract.ts';

@Injectable()
export class StocksService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<Stock>> {
    const { where, ...rest } = pageArgs(page);
    return this.database.inYard(viewer, async (tx) => {
      const rows = await tx.stock.findMany({
        where: { yardId: viewer.yardId, ...where },
        ...rest,
      });
      return toPage(rows, page, show);
    });
  }

  get(viewer: Viewer, id: string): Promise<Stock> {
    return this.database.inYard(viewer, (tx) => find(tx, viewer.yardId, id));
  }

  create(viewer: Viewer, input: StockInput): Promise<Stock> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'stocks', input));
      await tx.stock.create({ data: stockRow(yardId, input) });
      await appendEvent(tx, viewer, 'stock-added', 'stock', input.id);
      return find(tx, yardId, input.id);
    });
  }

  update(viewer: Viewer, id: string, revision: number, patch: StockPatch): Promise<Stock> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const changed = withoutRevision(patched(await find(tx, yardId, id), patch));
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'stocks', changed));
      const where = { yardId, id, revision };
      changedOne(await tx.stock.updateMany({ where, data: stockRow(yardId, changed) }));
      await appendEvent(tx, viewer, 'stock-changed', 'stock', id);
      return find(tx, yardId, id);
    });
  }

  remove(viewer: Viewer, id: string, revision: number): Promise<void> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await find(tx, yardId, id);
      await deletedOne(tx.stock.deleteMany({ where: { yardId, id, revision } }));
      await appendEvent(tx, viewer, 'stock-removed', 'stock', id);
    });
  }
}

async function find(tx: Tx, yardId: string, id: string): Promise<Stock> {
  const row = await tx.stock.findUnique({ where: { yardId_id: { yardId, id } } });
  if (!row) throw new DomainError('record.missing', `There is no stock "${id}".`);
  return show(row);
}

const show = (row: StockRow): Stock => ({ ...toStock(row), revision: row.revision });
