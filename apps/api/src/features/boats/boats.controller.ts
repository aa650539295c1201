import { Controller, Delete, Get, Param, Patch, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Boat, BoatInput, BoatPage, BoatPatch, Refit, RefitInput } from './boats.contract.ts';
import { BoatsService } from './boats.service.ts';
import { RefitsService } from './refits.service.ts';

@Controller('yards/:yardId/boats')
export class BoatsController {
  constructor(
    private readonly boats: BoatsService,
    private readonly refits: RefitsService,
  ) {}

  @Get()
  @Answers(200, BoatPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<Boat>> {
    return this.boats.list(viewer, page);
  }

  @Get(':id')
  @Answers(200, Boat)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Boat> {
    return this.boats.get(viewer, id);
  }

  @Post()
  @Answers(201, Boat)
  create(@By() viewer: Viewer, @BodyOf(BoatInput) input: BoatInput): Promise<Boat> {
    return this.boats.create(viewer, input);
  }

  @Patch(':id')
  @Answers(200, Boat)
  update(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
    @BodyOf(BoatPatch) patch: BoatPatch,
  ): Promise<Boat> {
    return this.boats.update(viewer, id, revision, patch);
  }

  @Delete(':id')
  @Answers(204)
  remove(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
  ): Promise<void> {
    return this.boats.remove(viewer, id, revision);
  }

  @Post(':id/refits')
  @Answers(201, Refit)
  createRefit(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(RefitInput) input: RefitInput,
  ): Promise<Refit> {
    return this.refits.create(viewer, id, input);
  }
}
