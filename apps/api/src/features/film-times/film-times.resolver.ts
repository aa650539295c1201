import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { FilmQuery, FilmTimes, LatestStart, LatestStartQuery } from './film-times.contract.ts';
import { FilmTimesService } from './film-times.service.ts';

@Resolver(() => FilmTimes)
export class FilmTimesResolver {
  constructor(private readonly times: FilmTimesService) {}

  @Query(() => FilmTimes, { name: 'filmTimes' })
  film(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('materialId', { type: () => ID }) materialId: string,
    @ArgOf(FilmQuery) input: FilmQuery,
  ): Promise<FilmTimes> {
    return this.times.film(viewer, materialId, input);
  }

  @Query(() => LatestStart, { name: 'latestStart' })
  latestStart(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('materialId', { type: () => ID }) materialId: string,
    @ArgOf(LatestStartQuery) input: LatestStartQuery,
  ): Promise<LatestStart> {
    return this.times.latestStart(viewer, materialId, input);
  }
}
