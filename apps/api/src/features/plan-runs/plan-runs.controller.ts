import { Controller, Get, Param, Post, StreamableFile } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { GetSse, LastEventId, sseOf } from '../../platform/streams/sse.ts';
import { PlanRun, PlanRunInput, PlanRunPage } from './plan-runs.contract.ts';
import { PlanRunsService } from './plan-runs.service.ts';

@Controller('yards/:yardId/plan-runs')
export class PlanRunsController {
  constructor(private readonly runs: PlanRunsService) {}

  /** Newest first. */
  @Get()
  @Answers(200, PlanRunPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<PlanRun>> {
    return this.runs.list(viewer, page);
  }

  @Get(':id')
  @Answers(200, PlanRun)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<PlanRun> {
    return this.runs.get(viewer, id);
  }

  @Post()
  @Answers(202, PlanRun)
  start(@By() viewer: Viewer, @BodyOf(PlanRunInput) input: PlanRunInput): Promise<PlanRun> {
    return this.runs.start(viewer, input);
  }

  @Post(':id/stop')
  @Answers(202, PlanRun)
  stop(@By() viewer: Viewer, @Param('id') id: string): Promise<PlanRun> {
    return this.runs.stop(viewer, id);
  }

  /** Server-sent events named `progress`, then one named `end`; `data` is a RunProgress. */
  @GetSse(':id/events')
  async follow(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @LastEventId() after: bigint | null,
  ): Promise<StreamableFile> {
    return sseOf(await this.runs.follow(viewer, id, after), (progress) => ({
      id: progress.eventId,
      event: ['queued', 'running'].includes(progress.status) ? 'progress' : 'end',
      data: progress,
    }));
  }
}
