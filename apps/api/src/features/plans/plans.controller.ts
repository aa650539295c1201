import { Controller, Get, Param, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { QueryOf } from '../../platform/shapes/input.ts';
import {
  Plan,
  PlanChains,
  type PlanSummary,
  PlanSummaryPage,
  PublishedPlan,
  Week,
  WeekQuery,
} from './plans.contract.ts';
import { PlansService } from './plans.service.ts';

@Controller('yards/:yardId/plans')
export class PlansController {
  constructor(private readonly plans: PlansService) {}

  /** Newest first. */
  @Get()
  @Answers(200, PlanSummaryPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<PlanSummary>> {
    return this.plans.list(viewer, page);
  }

  @Get(':id')
  @Answers(200, Plan)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Plan> {
    return this.plans.get(viewer, id);
  }

  @Get(':id/week')
  @Answers(200, Week)
  week(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @QueryOf(WeekQuery) query: WeekQuery,
  ): Promise<Week> {
    return this.plans.week(viewer, id, query);
  }

  @Get(':id/chains')
  @Answers(200, PlanChains)
  chains(@By() viewer: Viewer, @Param('id') id: string): Promise<PlanChains> {
    return this.plans.chains(viewer, id);
  }

  @Post(':id/publish')
  @Answers(200, PublishedPlan)
  publish(@By() viewer: Viewer, @Param('id') id: string): Promise<PublishedPlan> {
    return this.plans.publish(viewer, id);
  }
}
