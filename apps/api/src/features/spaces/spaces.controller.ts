import { Controller, Delete, Get, Param, Patch, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Space, SpaceInput, SpacePage, SpacePatch } from './spaces.contract.ts';
import { SpacesService } from './spaces.service.ts';

@Controller('yards/:yardId/spaces')
export class SpacesController {
  constructor(private readonly spaces: SpacesService) {}

  @Get()
  @Answers(200, SpacePage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<Space>> {
    return this.spaces.list(viewer, page);
  }

  @Get(':id')
  @Answers(200, Space)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Space> {
    return this.spaces.get(viewer, id);
  }

  @Post()
  @Answers(201, Space)
  create(@By() viewer: Viewer, @BodyOf(SpaceInput) input: SpaceInput): Promise<Space> {
    return this.spaces.create(viewer, input);
  }

  @Patch(':id')
  @Answers(200, Space)
  update(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
    @BodyOf(SpacePatch) patch: SpacePatch,
  ): Promise<Space> {
    return this.spaces.update(viewer, id, revision, patch);
  }

  @Delete(':id')
  @Answers(204)
  remove(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
  ): Promise<void> {
    return this.spaces.remove(viewer, id, revision);
  }
}
