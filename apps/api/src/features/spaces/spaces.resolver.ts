import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { Space, SpaceInput, SpacePage, SpacePatch } from './spaces.contract.ts';
import { SpacesService } from './spaces.service.ts';

@Resolver(() => Space)
export class SpacesResolver {
  constructor(private readonly spaces: SpacesService) {}

  @Query(() => SpacePage, { name: 'spaces' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Space>> {
    return this.spaces.list(viewer, page);
  }

  @Query(() => Space, { name: 'space' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Space> {
    return this.spaces.get(viewer, id);
  }

  @Mutation(() => Space, { name: 'createSpace' })
  create(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(SpaceInput) input: SpaceInput,
  ): Promise<Space> {
    return this.spaces.create(viewer, input);
  }

  @Mutation(() => Space, { name: 'updateSpace' })
  update(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(SpacePatch) patch: SpacePatch,
  ): Promise<Space> {
    return this.spaces.update(viewer, id, revision, patch);
  }
}
