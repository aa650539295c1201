import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { Tool, ToolInput, ToolPage, ToolPatch } from './tools.contract.ts';
import { ToolsService } from './tools.service.ts';

@Resolver(() => Tool)
export class ToolsResolver {
  constructor(private readonly tools: ToolsService) {}

  @Query(() => ToolPage, { name: 'tools' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Tool>> {
    return this.tools.list(viewer, page);
  }

  @Query(() => Tool, { name: 'tool' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Tool> {
    return this.tools.get(viewer, id);
  }

  @Mutation(() => Tool, { name: 'createTool' })
  create(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(ToolInput) input: ToolInput,
  ): Promise<Tool> {
    return this.tools.create(viewer, input);
  }

  @Mutation(() => Tool, { name: 'updateTool' })
  update(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(ToolPatch) patch: ToolPatch,
  ): Promise<Tool> {
    return this.tools.update(viewer, id, revision, patch);
  }
}
