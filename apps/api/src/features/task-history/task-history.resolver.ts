import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { TaskHistory } from './task-history.contract.ts';
import { TaskHistoryService } from './task-history.service.ts';

@Resolver(() => TaskHistory)
export class TaskHistoryResolver {
  constructor(private readonly histories: TaskHistoryService) {}

  @Query(() => TaskHistory, { name: 'taskHistory' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<TaskHistory> {
    return this.histories.get(viewer, id);
  }
}
