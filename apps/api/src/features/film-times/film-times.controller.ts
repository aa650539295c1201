import { Controller, Get, Param } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { QueryOf } from '../../platform/shapes/input.ts';
import { FilmQuery, FilmTimes, LatestStart, LatestStartQuery } from './film-times.contract.ts';
import { FilmTimesService } from './film-times.service.ts';

@Controller('yards/:yardId/materials/:id')
export class FilmTimesController {
  constructor(private readonly times: FilmTimesService) {}

  /** When a film of it, laid then and there, reaches its milestones. */
  @Get('film')
  @Answers(200, FilmTimes)
  film(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @QueryOf(FilmQuery) query: FilmQuery,
  ): Promise<FilmTimes> {
    return this.times.film(viewer, id, query);
  }

  /** When to lay it to have reached a milestone by a moment. */
  @Get('latest-start')
  @Answers(200, LatestStart)
  latestStart(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @QueryOf(LatestStartQuery) query: LatestStartQuery,
  ): Promise<LatestStart> {
    return this.times.latestStart(viewer, id, query);
  }
}
