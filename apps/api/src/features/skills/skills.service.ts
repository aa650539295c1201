import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { deletedOne } from '../../platform/database/delete-one.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';
import { patched } from '../../platform/shapes/layers.ts';
import type { Skill, SkillInput, SkillPatch } from './skills.contract.ts';

@Injectable()
export class SkillsService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<Skill>> {
    const { where, ...rest } = pageArgs(page);
    return this.database.inYard(viewer, async (tx) => {
      const rows = await tx.skill.findMany({ where: { yardId: viewer.yardId, ...where }, ...rest });
      return toPage(rows, page, show);
    });
  }

  get(viewer: Viewer, id: string): Promise<Skill> {
    return this.database.inYard(viewer, (tx) => find(tx, viewer, id));
  }

  create(viewer: Viewer, input: SkillInput): Promise<Skill> {
    return this.database.inYard(viewer, async (tx) => {
      const row = await tx.skill.create({ data: { yardId: viewer.yardId, ...input } });
      await appendEvent(tx, viewer, 'skill-added', 'skill', input.id);
      return show(row);
    });
  }

  update(viewer: Viewer, id: string, revision: number, patch: SkillPatch): Promise<Skill> {
    return this.database.inYard(viewer, async (tx) => {
      const { name } = patched(await find(tx, viewer, id), patch);
      const where = { yardId: viewer.yardId, id, revision };
      changedOne(await tx.skill.updateMany({ where, data: { name } }));
      await appendEvent(tx, viewer, 'skill-changed', 'skill', id);
      return find(tx, viewer, id);
    });
  }

  remove(viewer: Viewer, id: string, revision: number): Promise<void> {
    return this.database.inYard(viewer, async (tx) => {
      await find(tx, viewer, id);
      await deletedOne(tx.skill.deleteMany({ where: { yardId: viewer.yardId, id, revision } }));
      await appendEvent(tx, viewer, 'skill-removed', 'skill', id);
    });
  }
}

async function find(tx: Tx, { yardId }: Viewer, id: string): Promise<Skill> {
  const row = await tx.skill.findUnique({ where: { yardId_id: { yardId, id } } });
  if (!row) throw new DomainError('record.missing', `There is no skill "${id}".`);
  return show(row);
}

function show({ id, name, revision }: Skill): Skill {
  return { id, name, revision };
}
