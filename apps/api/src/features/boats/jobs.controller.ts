import { Controller, Delete, Get, Param, Patch } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Job, JobPatch } from './boats.contract.ts';
import { JobsService } from './jobs.service.ts';

@Controller('yards/:yardId/jobs/:id')
export class JobsController {
  constructor(private readonly jobs: JobsService) {}

  @Get()
  @Answers(200, Job)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Job> {
    return this.jobs.get(viewer, id);
  }

  /** The word that a hold point waits for is expected later; a delivery is waited for. */
  @Patch()
  @Answers(200, Job)
  update(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
    @BodyOf(JobPatch) patch: JobPatch,
  ): Promise<Job> {
    return this.jobs.update(viewer, id, revision, patch);
  }

  /** Whatever it waits for, nothing can be stale about its end. */
  @Delete()
  @Answers(204)
  remove(@By() viewer: Viewer, @Param('id') id: string): Promise<void> {
    return this.jobs.remove(viewer, id);
  }
}
