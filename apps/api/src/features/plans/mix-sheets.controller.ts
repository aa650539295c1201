import { Controller, Get, Param } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { QueryOf } from '../../platform/shapes/input.ts';
import { MixSheets, MixSheetsQuery, PlanShopping, TaskMixSheet } from './mix-sheets.contract.ts';
import { MixSheetsService } from './mix-sheets.service.ts';

@Controller('yards/:yardId/plans/:id')
export class MixSheetsController {
  constructor(private readonly sheets: MixSheetsService) {}

  /** What to weigh, in which cups, by when. */
  @Get('mix-sheets')
  @Answers(200, MixSheets)
  list(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @QueryOf(MixSheetsQuery) query: MixSheetsQuery,
  ): Promise<MixSheets> {
    return this.sheets.list(viewer, id, query);
  }

  @Get('tasks/:taskId/mix-sheet')
  @Answers(200, TaskMixSheet)
  ofTask(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @Param('taskId') taskId: string,
  ): Promise<TaskMixSheet> {
    return this.sheets.ofTask(viewer, id, taskId);
  }

  /** What to buy, by week, with the shelf life where a sheet says it. */
  @Get('shopping')
  @Answers(200, PlanShopping)
  shopping(@By() viewer: Viewer, @Param('id') id: string): Promise<PlanShopping> {
    return this.sheets.shopping(viewer, id);
  }
}
