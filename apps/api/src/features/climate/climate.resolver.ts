import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { ClimateQuery, SpaceClimate } from './climate.contract.ts';
import { ClimateService } from './climate.service.ts';

@Resolver(() => SpaceClimate)
export class ClimateResolver {
  constructor(private readonly climate: ClimateService) {}

  @Query(() => SpaceClimate, { name: 'spaceClimate' })
  hours(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('spaceId', { type: () => ID }) spaceId: string,
    @ArgOf(ClimateQuery) input: ClimateQuery,
  ): Promise<SpaceClimate> {
    return this.climate.hours(viewer, spaceId, input);
  }
}
