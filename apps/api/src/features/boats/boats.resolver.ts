import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { Boat, BoatInput, BoatPage, BoatPatch } from './boats.contract.ts';
import { BoatsService } from './boats.service.ts';

@Resolver(() => Boat)
export class BoatsResolver {
  constructor(private readonly boats: BoatsService) {}

  @Query(() => BoatPage, { name: 'boats' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Boat>> {
    return this.boats.list(viewer, page);
  }

  @Query(() => Boat, { name: 'boat' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Boat> {
    return this.boats.get(viewer, id);
  }

  @Mutation(() => Boat, { name: 'createBoat' })
  create(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(BoatInput) input: BoatInput,
  ): Promise<Boat> {
    return this.boats.create(viewer, input);
  }

  @Mutation(() => Boat, { name: 'updateBoat' })
  update(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(BoatPatch) patch: BoatPatch,
  ): Promise<Boat> {
    return this.boats.update(viewer, id, revision, patch);
  }
}
