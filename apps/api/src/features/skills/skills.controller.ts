import { Controller, Delete, Get, Param, Patch, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Skill, SkillInput, SkillPage, SkillPatch } from './skills.contract.ts';
import { SkillsService } from './skills.service.ts';

@Controller('yards/:yardId/skills')
export class SkillsController {
  constructor(private readonly skills: SkillsService) {}

  @Get()
  @Answers(200, SkillPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<Skill>> {
    return this.skills.list(viewer, page);
  }

  @Get(':id')
  @Answers(200, Skill)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Skill> {
    return this.skills.get(viewer, id);
  }

  @Post()
  @Answers(201, Skill)
  create(@By() viewer: Viewer, @BodyOf(SkillInput) input: SkillInput): Promise<Skill> {
    return this.skills.create(viewer, input);
  }

  @Patch(':id')
  @Answers(200, Skill)
  update(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
    @BodyOf(SkillPatch) patch: SkillPatch,
  ): Promise<Skill> {
    return this.skills.update(viewer, id, revision, patch);
  }

  @Delete(':id')
  @Answers(204)
  remove(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
  ): Promise<void> {
    return this.skills.remove(viewer, id, revision);
  }
}
