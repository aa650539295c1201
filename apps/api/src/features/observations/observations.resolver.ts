import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import {
  MaterialCalibration,
  Observation,
  ObservationInput,
  ObservationPage,
  ObservationsFilter,
  TackTested,
  TackTestInput,
} from './observations.contract.ts';
import { ObservationsService } from './observations.service.ts';

@Resolver(() => Observation)
export class ObservationsResolver {
  constructor(private readonly observations: ObservationsService) {}

  @Query(() => ObservationPage, { name: 'observations' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(ObservationsFilter) input: ObservationsFilter,
    @PageArg() page: PageRequest,
  ): Promise<Page<Observation>> {
    return this.observations.list(viewer, input, page);
  }

  @Query(() => Observation, { name: 'observation' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Observation> {
    return this.observations.get(viewer, id);
  }

  @Query(() => MaterialCalibration, { name: 'calibration' })
  calibration(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('materialId', { type: () => ID }) materialId: string,
  ): Promise<MaterialCalibration> {
    return this.observations.calibration(viewer, materialId);
  }

  @Mutation(() => Observation, { name: 'addObservation' })
  add(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(ObservationInput) input: ObservationInput,
  ): Promise<Observation> {
    return this.observations.add(viewer, input);
  }

  @Mutation(() => TackTested, { name: 'addTackTest' })
  tackTest(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('taskId', { type: () => ID }) taskId: string,
    @ArgOf(TackTestInput) input: TackTestInput,
  ): Promise<TackTested> {
    return this.observations.tackTest(viewer, taskId, input);
  }

  @Mutation(() => Observation, { name: 'removeObservation' })
  remove(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<Observation> {
    return this.observations.remove(viewer, id);
  }
}
