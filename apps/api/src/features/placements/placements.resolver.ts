import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { PlacementInput, TaskOfPlan, TriedPlacement } from './placements.contract.ts';
import { PlacementsService } from './placements.service.ts';

@Resolver(() => TriedPlacement)
export class PlacementsResolver {
  constructor(private readonly placements: PlacementsService) {}

  @Query(() => TaskOfPlan, { name: 'taskOfPlan' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('planId', { type: () => ID }) planId: string,
    @Args('taskId', { type: () => ID }) taskId: string,
  ): Promise<TaskOfPlan> {
    return this.placements.get(viewer, planId, taskId);
  }

  @Query(() => TriedPlacement, { name: 'tryPlacement' })
  tryPlacement(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('planId', { type: () => ID }) planId: string,
    @Args('taskId', { type: () => ID }) taskId: string,
    @ArgOf(PlacementInput) input: PlacementInput,
  ): Promise<TriedPlacement> {
    return this.placements.tryPlacement(viewer, planId, taskId, input);
  }
}
