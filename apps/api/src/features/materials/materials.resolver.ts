import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { Material, MaterialInput, MaterialPage, MaterialPatch } from './materials.contract.ts';
import { MaterialSheet, MaterialVersionList } from './sheet.contract.ts';
import { MaterialsService } from './materials.service.ts';

@Resolver(() => Material)
export class MaterialsResolver {
  constructor(private readonly materials: MaterialsService) {}

  @Query(() => MaterialPage, { name: 'materials' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Material>> {
    return this.materials.list(viewer, page);
  }

  @Query(() => Material, { name: 'material' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Material> {
    return this.materials.get(viewer, id);
  }

  @Query(() => MaterialSheet, { name: 'materialSheet' })
  sheet(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<MaterialSheet> {
    return this.materials.sheet(viewer, id);
  }

  @Query(() => MaterialVersionList, { name: 'materialVersions' })
  versions(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<MaterialVersionList> {
    return this.materials.versions(viewer, id);
  }

  @Mutation(() => Material, { name: 'createMaterial' })
  create(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(MaterialInput) input: MaterialInput,
  ): Promise<Material> {
    return this.materials.create(viewer, input);
  }

  @Mutation(() => Material, { name: 'updateMaterial' })
  update(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(MaterialPatch) patch: MaterialPatch,
  ): Promise<Material> {
    return this.materials.update(viewer, id, revision, patch);
  }
}
