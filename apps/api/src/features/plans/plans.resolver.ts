import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import {
  Plan,
  PlanChains,
  type PlanSummary,
  PlanSummaryPage,
  PublishedPlan,
  type Publishing,
  PublishingPage,
  Week,
  WeekQuery,
} from './plans.contract.ts';
import { PlanArg } from './plan-arg.ts';
import { PlansService } from './plans.service.ts';

@Resolver(() => Plan)
export class PlansResolver {
  constructor(private readonly plans: PlansService) {}

  @Query(() => PlanSummaryPage, { name: 'plans' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<PlanSummary>> {
    return this.plans.list(viewer, page);
  }

  @Query(() => Plan, { name: 'plan' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Plan> {
    return this.plans.get(viewer, id);
  }

  @Query(() => Plan, { name: 'publishedPlan' })
  published(@By() viewer: Viewer, @YardArg() _yardId: string): Promise<Plan> {
    return this.plans.get(viewer, null);
  }

  @Query(() => Week, { name: 'planWeek' })
  week(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(WeekQuery) input: WeekQuery,
    @PlanArg() id?: string,
  ): Promise<Week> {
    return this.plans.week(viewer, id ?? null, input);
  }

  @Query(() => PlanChains, { name: 'planChains' })
  chains(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PlanArg() id?: string,
  ): Promise<PlanChains> {
    return this.plans.chains(viewer, id ?? null);
  }

  @Query(() => PublishingPage, { name: 'publishings' })
  publishings(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Publishing>> {
    return this.plans.publishings(viewer, page);
  }

  @Mutation(() => PublishedPlan, { name: 'publishPlan' })
  publish(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<PublishedPlan> {
    return this.plans.publish(viewer, id);
  }
}
