import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { MixSheets, MixSheetsQuery, PlanShopping, TaskMixSheet } from './mix-sheets.contract.ts';
import { MixSheetsService } from './mix-sheets.service.ts';
import { PlanArg } from './plan-arg.ts';

@Resolver(() => TaskMixSheet)
export class MixSheetsResolver {
  constructor(private readonly sheets: MixSheetsService) {}

  @Query(() => MixSheets, { name: 'mixSheets' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(MixSheetsQuery) input: MixSheetsQuery,
    @PlanArg() id?: string,
  ): Promise<MixSheets> {
    return this.sheets.list(viewer, id ?? null, input);
  }

  @Query(() => TaskMixSheet, { name: 'mixSheet' })
  ofTask(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('taskId', { type: () => ID }) taskId: string,
    @PlanArg() id?: string,
  ): Promise<TaskMixSheet> {
    return this.sheets.ofTask(viewer, id ?? null, taskId);
  }

  @Query(() => PlanShopping, { name: 'shopping' })
  shopping(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PlanArg() id?: string,
  ): Promise<PlanShopping> {
    return this.sheets.shopping(viewer, id ?? null);
  }
}
