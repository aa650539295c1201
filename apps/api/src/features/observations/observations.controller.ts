import { Controller, Delete, Get, Param, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import type { Page } from '../../platform/paging/page.ts';
import { BodyOf, QueryOf } from '../../platform/shapes/input.ts';
import {
  MaterialCalibration,
  Observation,
  ObservationInput,
  ObservationPage,
  ObservationsQuery,
  TackTested,
  TackTestInput,
} from './observations.contract.ts';
import { ObservationsService } from './observations.service.ts';

@Controller('yards/:yardId')
export class ObservationsController {
  constructor(private readonly observations: ObservationsService) {}

  @Get('observations')
  @Answers(200, ObservationPage)
  list(
    @By() viewer: Viewer,
    @QueryOf(ObservationsQuery) { first, after, ...filter }: ObservationsQuery,
  ): Promise<Page<Observation>> {
    return this.observations.list(viewer, filter, { first, after });
  }

  @Get('observations/:id')
  @Answers(200, Observation)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Observation> {
    return this.observations.get(viewer, id);
  }

  @Post('observations')
  @Answers(201, Observation)
  add(
    @By() viewer: Viewer,
    @BodyOf(ObservationInput) input: ObservationInput,
  ): Promise<Observation> {
    return this.observations.add(viewer, input);
  }

  /** A finger, or the paper, on the film that a task has left. */
  @Post('tasks/:taskId/tack-tests')
  @Answers(201, TackTested)
  tackTest(
    @By() viewer: Viewer,
    @Param('taskId') taskId: string,
    @BodyOf(TackTestInput) input: TackTestInput,
  ): Promise<TackTested> {
    return this.observations.tackTest(viewer, taskId, input);
  }

  /** An observation never changes, so nothing guards it. */
  @Delete('observations/:id')
  @Answers(204)
  async remove(@By() viewer: Viewer, @Param('id') id: string): Promise<void> {
    await this.observations.remove(viewer, id);
  }

  /** What the yard's observations make of a material's times, with the evidence. */
  @Get('materials/:id/calibration')
  @Answers(200, MaterialCalibration)
  calibration(@By() viewer: Viewer, @Param('id') id: string): Promise<MaterialCalibration> {
    return this.observations.calibration(viewer, id);
  }
}
