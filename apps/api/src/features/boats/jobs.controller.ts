import { Controller, Delete, Get, Param } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import { May } from '../../platform/access/rules.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { Job } from './boats.contract.ts';
import { JobsService } from './jobs.service.ts';

@Controller('yards/:yardId/jobs/:id')
export class JobsController {
  constructor(private readonly jobs: JobsService) {}

  @Get()
  @May('foreman', 'builder')
  @Answers(200, Job)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Job> {
    return this.jobs.get(viewer, id);
  }

  /** A job has no fields to change, so nothing can be stale about its end. */
  @Delete()
  @May('foreman')
  @Answers(204)
  remove(@By() viewer: Viewer, @Param('id') id: string): Promise<void> {
    return this.jobs.remove(viewer, id);
  }
}
