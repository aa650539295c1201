import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { Barrier, BarrierInput, BarrierPage, BarrierPatch } from './barriers.contract.ts';
import { BarriersService } from './barriers.service.ts';

@Resolver(() => Barrier)
export class BarriersResolver {
  constructor(private readonly barriers: BarriersService) {}

  @Query(() => BarrierPage, { name: 'barriers' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Barrier>> {
    return this.barriers.list(viewer, page);
  }

  @Query(() => Barrier, { name: 'barrier' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Barrier> {
    return this.barriers.get(viewer, id);
  }

  @Mutation(() => Barrier, { name: 'createBarrier' })
  create(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(BarrierInput) input: BarrierInput,
  ): Promise<Barrier> {
    return this.barriers.create(viewer, input);
  }

  @Mutation(() => Barrier, { name: 'updateBarrier' })
  update(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(BarrierPatch) patch: BarrierPatch,
  ): Promise<Barrier> {
    return this.barriers.update(viewer, id, revision, patch);
  }
}
