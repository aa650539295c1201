import { Controller, Get, Param, Patch, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { MomentOfWorkInput, ReasonInput } from './claims.contract.ts';
import { Task, TaskPage, TaskPatch } from './tasks.contract.ts';
import { TasksService } from './tasks.service.ts';

@Controller('yards/:yardId/tasks')
export class TasksController {
  constructor(private readonly tasks: TasksService) {}

  @Get()
  @Answers(200, TaskPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<Task>> {
    return this.tasks.list(viewer, page);
  }

  @Get(':id')
  @Answers(200, Task)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Task> {
    return this.tasks.get(viewer, id);
  }

  @Patch(':id')
  @Answers(200, Task)
  fix(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
    @BodyOf(TaskPatch) patch: TaskPatch,
  ): Promise<Task> {
    return this.tasks.fix(viewer, id, revision, patch);
  }

  @Post(':taskId/batch-failed')
  @Answers(200, Task)
  failBatch(
    @By() viewer: Viewer,
    @Param('taskId') taskId: string,
    @BodyOf(ReasonInput) input: ReasonInput,
  ): Promise<Task> {
    return this.tasks.failBatch(viewer, taskId, input);
  }

  @Post(':taskId/undo')
  @Answers(200, Task)
  undo(
    @By() viewer: Viewer,
    @Param('taskId') taskId: string,
    @BodyOf(MomentOfWorkInput) input: MomentOfWorkInput,
  ): Promise<Task> {
    return this.tasks.undo(viewer, taskId, input);
  }
}
