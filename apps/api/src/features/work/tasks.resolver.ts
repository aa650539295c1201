import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { MomentOfWorkInput, ReasonInput } from './claims.contract.ts';
import { Task, TaskPage, TaskPatch } from './tasks.contract.ts';
import { TasksService } from './tasks.service.ts';

@Resolver(() => Task)
export class TasksResolver {
  constructor(private readonly tasks: TasksService) {}

  @Query(() => TaskPage, { name: 'tasks' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Task>> {
    return this.tasks.list(viewer, page);
  }

  @Query(() => Task, { name: 'task' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Task> {
    return this.tasks.get(viewer, id);
  }

  @Mutation(() => Task, { name: 'fixTask' })
  fix(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(TaskPatch) patch: TaskPatch,
  ): Promise<Task> {
    return this.tasks.fix(viewer, id, revision, patch);
  }

  @Mutation(() => Task, { name: 'reportBatchFailed' })
  failBatch(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('taskId', { type: () => ID }) taskId: string,
    @ArgOf(ReasonInput) input: ReasonInput,
  ): Promise<Task> {
    return this.tasks.failBatch(viewer, taskId, input);
  }

  @Mutation(() => Task, { name: 'undoReport' })
  undo(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('taskId', { type: () => ID }) taskId: string,
    @ArgOf(MomentOfWorkInput) input: MomentOfWorkInput,
  ): Promise<Task> {
    return this.tasks.undo(viewer, taskId, input);
  }
}
