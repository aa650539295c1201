import { Controller, Get, Param } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { QueryOf } from '../../platform/shapes/input.ts';
import { ClimateQuery, SpaceClimate } from './climate.contract.ts';
import { ClimateService } from './climate.service.ts';

@Controller('yards/:yardId/spaces/:id/climate')
export class ClimateController {
  constructor(private readonly climate: ClimateService) {}

  @Get()
  @Answers(200, SpaceClimate)
  hours(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @QueryOf(ClimateQuery) query: ClimateQuery,
  ): Promise<SpaceClimate> {
    return this.climate.hours(viewer, id, query);
  }
}
