import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import {
  PlanCheck,
  WhatShortens,
  WhatShortensQuery,
  WhyNotEarlier,
  WhyNotEarlierQuery,
} from './explanations.contract.ts';
import { ExplanationsService } from './explanations.service.ts';
import { PlanArg } from './plan-arg.ts';

@Resolver(() => WhyNotEarlier)
export class ExplanationsResolver {
  constructor(private readonly explanations: ExplanationsService) {}

  @Query(() => WhyNotEarlier, { name: 'whyNotEarlier' })
  whyNotEarlier(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('taskId', { type: () => ID }) taskId: string,
    @ArgOf(WhyNotEarlierQuery) input: WhyNotEarlierQuery,
    @PlanArg() id?: string,
  ): Promise<WhyNotEarlier> {
    return this.explanations.whyNotEarlier(viewer, id ?? null, taskId, input);
  }

  @Query(() => WhatShortens, { name: 'whatShortens' })
  whatShortens(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(WhatShortensQuery) input: WhatShortensQuery,
    @PlanArg() id?: string,
  ): Promise<WhatShortens> {
    return this.explanations.whatShortens(viewer, id ?? null, input);
  }

  @Query(() => PlanCheck, { name: 'planCheck' })
  check(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PlanArg() id?: string,
  ): Promise<PlanCheck> {
    return this.explanations.check(viewer, id ?? null);
  }
}
