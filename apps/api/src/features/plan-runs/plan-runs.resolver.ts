import { Args, ID, Mutation, Query, Resolver, Subscription } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { mappedLeavable } from '../../platform/streams/leavable.ts';
import { eventIdOf } from '../../platform/streams/sse.ts';
import { PlanRun, PlanRunInput, PlanRunPage, RunProgress } from './plan-runs.contract.ts';
import { PlanRunsService } from './plan-runs.service.ts';

@Resolver(() => PlanRun)
export class PlanRunsResolver {
  constructor(private readonly runs: PlanRunsService) {}

  @Query(() => PlanRunPage, { name: 'planRuns' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<PlanRun>> {
    return this.runs.list(viewer, page);
  }

  @Query(() => PlanRun, { name: 'planRun' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<PlanRun> {
    return this.runs.get(viewer, id);
  }

  @Mutation(() => PlanRun, { name: 'startPlanRun' })
  start(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(PlanRunInput) input: PlanRunInput,
  ): Promise<PlanRun> {
    return this.runs.start(viewer, input);
  }

  @Mutation(() => PlanRun, { name: 'stopPlanRun' })
  stop(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<PlanRun> {
    return this.runs.stop(viewer, id);
  }

  /** Completes with the run's end. */
  @Subscription(() => RunProgress, { name: 'planRun' })
  async follow(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('after', { type: () => ID, nullable: true }) after?: string,
  ): Promise<AsyncIterableIterator<{ planRun: RunProgress }, void>> {
    const progress = await this.runs.follow(viewer, id, eventIdOf(after, 'after'));
    return mappedLeavable(progress, (planRun) => ({ planRun }));
  }
}
