import { Controller, Delete, Get, Param, Patch, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Barrier, BarrierInput, BarrierPage, BarrierPatch } from './barriers.contract.ts';
import { BarriersService } from './barriers.service.ts';

@Controller('yards/:yardId/barriers')
export class BarriersController {
  constructor(private readonly barriers: BarriersService) {}

  @Get()
  @Answers(200, BarrierPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<Barrier>> {
    return this.barriers.list(viewer, page);
  }

  @Get(':id')
  @Answers(200, Barrier)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Barrier> {
    return this.barriers.get(viewer, id);
  }

  @Post()
  @Answers(201, Barrier)
  create(@By() viewer: Viewer, @BodyOf(BarrierInput) input: BarrierInput): Promise<Barrier> {
    return this.barriers.create(viewer, input);
  }

  @Patch(':id')
  @Answers(200, Barrier)
  update(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
    @BodyOf(BarrierPatch) patch: BarrierPatch,
  ): Promise<Barrier> {
    return this.barriers.update(viewer, id, revision, patch);
  }

  @Delete(':id')
  @Answers(204)
  remove(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
  ): Promise<void> {
    return this.barriers.remove(viewer, id, revision);
  }
}
