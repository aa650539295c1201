import { Controller, Delete, Get, Param, Patch, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Job, JobInput, Part, PartPatch } from './boats.contract.ts';
import { PartsService } from './parts.service.ts';
import { JobsService } from './jobs.service.ts';

@Controller('yards/:yardId/parts/:id')
export class PartsController {
  constructor(
    private readonly parts: PartsService,
    private readonly jobs: JobsService,
  ) {}

  @Get()
  @Answers(200, Part)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Part> {
    return this.parts.get(viewer, id);
  }

  @Patch()
  @Answers(200, Part)
  update(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
    @BodyOf(PartPatch) patch: PartPatch,
  ): Promise<Part> {
    return this.parts.update(viewer, id, revision, patch);
  }

  @Delete()
  @Answers(204)
  remove(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
  ): Promise<void> {
    return this.parts.remove(viewer, id, revision);
  }

  @Post('jobs')
  @Answers(201, Job)
  addJob(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(JobInput) input: JobInput,
  ): Promise<Job> {
    return this.jobs.create(viewer, id, input);
  }
}
