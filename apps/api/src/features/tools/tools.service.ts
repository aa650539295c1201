import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import type { Tool as ToolRow } from '#persistence/generated/client.ts';
import { toolRow, toTool } from '#persistence/yard/supply.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { deletedOne } from '../../platform/database/delete-one.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { withoutRevision } from '../../platform/shapes/record.ts';
import { assertFits, withRecord } from '../soundness/soundness.service.ts';
import type { Tool, ToolInput, ToolPatch } from './tools.contract.ts';

@Injectable()
export class ToolsService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<Tool>> {
    const { where, ...rest } = pageArgs(page);
    return this.database.inYard(viewer, async (tx) => {
      const rows = await tx.tool.findMany({ where: { yardId: viewer.yardId, ...where }, ...rest });
      return toPage(rows, page, show);
    });
  }

  get(viewer: Viewer, id: string): Promise<Tool> {
    return this.database.inYard(viewer, (tx) => find(tx, viewer, id));
  }

  create(viewer: Viewer, input: ToolInput): Promise<Tool> {
    return this.database.inYard(viewer, async (tx) => {
      await assertFits(tx, viewer.yardId, (yard) => withRecord(yard, 'tools', input));
      const row = await tx.tool.create({ data: toolRow(viewer.yardId, input) });
      await appendEvent(tx, viewer, 'tool-added', 'tool', input.id);
      return show(row);
    });
  }

  update(viewer: Viewer, id: string, revision: number, patch: ToolPatch): Promise<Tool> {
    return this.database.inYard(viewer, async (tx) => {
      const tool = withoutRevision(patched(await find(tx, viewer, id), patch));
      await assertFits(tx, viewer.yardId, (yard) => withRecord(yard, 'tools', tool));
      const where = { yardId: viewer.yardId, id, revision };
      changedOne(await tx.tool.updateMany({ where, data: toolRow(viewer.yardId, tool) }));
      await appendEvent(tx, viewer, 'tool-changed', 'tool', id);
      return find(tx, viewer, id);
    });
  }

  remove(viewer: Viewer, id: string, revision: number): Promise<void> {
    return this.database.inYard(viewer, async (tx) => {
      await find(tx, viewer, id);
      await deletedOne(tx.tool.deleteMany({ where: { yardId: viewer.yardId, id, revision } }));
      await appendEvent(tx, viewer, 'tool-removed', 'tool', id);
    });
  }
}

async function find(tx: Tx, { yardId }: Viewer, id: string): Promise<Tool> {
  const row = await tx.tool.findUnique({ where: { yardId_id: { yardId, id } } });
  if (!row) throw new DomainError('record.missing', `There is no tool "${id}".`);
  return show(row);
}

function show(row: ToolRow): Tool {
  return { ...toTool(row), revision: row.revision };
}
