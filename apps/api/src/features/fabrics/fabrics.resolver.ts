import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { Fabric, FabricInput, FabricPage, FabricPatch } from './fabrics.contract.ts';
import { FabricsService } from './fabrics.service.ts';

@Resolver(() => Fabric)
export class FabricsResolver {
  constructor(private readonly fabrics: FabricsService) {}

  @Query(() => FabricPage, { name: 'fabrics' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Fabric>> {
    return this.fabrics.list(viewer, page);
  }

  @Query(() => Fabric, { name: 'fabric' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Fabric> {
    return this.fabrics.get(viewer, id);
  }

  @Mutation(() => Fabric, { name: 'createFabric' })
  create(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(FabricInput) input: FabricInput,
  ): Promise<Fabric> {
    return this.fabrics.create(viewer, input);
  }

  @Mutation(() => Fabric, { name: 'updateFabric' })
  update(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(FabricPatch) patch: FabricPatch,
  ): Promise<Fabric> {
    return this.fabrics.update(viewer, id, revision, patch);
  }
}
