import { Controller, Get, Param } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { TaskHistory } from './task-history.contract.ts';
import { TaskHistoryService } from './task-history.service.ts';

@Controller('yards/:yardId/tasks')
export class TaskHistoryController {
  constructor(private readonly histories: TaskHistoryService) {}

  /** Planned, planned anew, and as it really was, side by side. */
  @Get(':id/history')
  @Answers(200, TaskHistory)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<TaskHistory> {
    return this.histories.get(viewer, id);
  }
}
