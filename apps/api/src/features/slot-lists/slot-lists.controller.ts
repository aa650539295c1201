import { Controller, Delete, Get, Param, Patch, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { SlotList, SlotListInput, SlotListPage, SlotListPatch } from './slot-lists.contract.ts';
import { SlotListsService } from './slot-lists.service.ts';

@Controller('yards/:yardId/slot-lists')
export class SlotListsController {
  constructor(private readonly slotLists: SlotListsService) {}

  @Get()
  @Answers(200, SlotListPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<SlotList>> {
    return this.slotLists.list(viewer, page);
  }

  @Get(':id')
  @Answers(200, SlotList)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<SlotList> {
    return this.slotLists.get(viewer, id);
  }

  @Post()
  @Answers(201, SlotList)
  create(@By() viewer: Viewer, @BodyOf(SlotListInput) input: SlotListInput): Promise<SlotList> {
    return this.slotLists.create(viewer, input);
  }

  @Patch(':id')
  @Answers(200, SlotList)
  update(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
    @BodyOf(SlotListPatch) patch: SlotListPatch,
  ): Promise<SlotList> {
    return this.slotLists.update(viewer, id, revision, patch);
  }

  @Delete(':id')
  @Answers(204)
  remove(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
  ): Promise<void> {
    return this.slotLists.remove(viewer, id, revision);
  }
}
