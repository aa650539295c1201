import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { SlotList, SlotListInput, SlotListPage, SlotListPatch } from './slot-lists.contract.ts';
import { SlotListsService } from './slot-lists.service.ts';

@Resolver(() => SlotList)
export class SlotListsResolver {
  constructor(private readonly slotLists: SlotListsService) {}

  @Query(() => SlotListPage, { name: 'slotLists' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<SlotList>> {
    return this.slotLists.list(viewer, page);
  }

  @Query(() => SlotList, { name: 'slotList' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<SlotList> {
    return this.slotLists.get(viewer, id);
  }

  @Mutation(() => SlotList, { name: 'createSlotList' })
  create(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(SlotListInput) input: SlotListInput,
  ): Promise<SlotList> {
    return this.slotLists.create(viewer, input);
  }

  @Mutation(() => SlotList, { name: 'updateSlotList' })
  update(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(SlotListPatch) patch: SlotListPatch,
  ): Promise<SlotList> {
    return this.slotLists.update(viewer, id, revision, patch);
  }
}
