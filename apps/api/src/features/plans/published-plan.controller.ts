import { Controller, Get } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { QueryOf } from '../../platform/shapes/input.ts';
import { MixSheets, MixSheetsQuery, PlanShopping } from './mix-sheets.contract.ts';
import { MixSheetsService } from './mix-sheets.service.ts';
import { Plan, PlanChains, Week, WeekQuery } from './plans.contract.ts';
import { PlansService } from './plans.service.ts';

/** The plan that the yard works to. */
@Controller('yards/:yardId/published-plan')
export class PublishedPlanController {
  constructor(
    private readonly plans: PlansService,
    private readonly sheets: MixSheetsService,
  ) {}

  @Get()
  @Answers(200, Plan)
  get(@By() viewer: Viewer): Promise<Plan> {
    return this.plans.get(viewer, null);
  }

  @Get('week')
  @Answers(200, Week)
  week(@By() viewer: Viewer, @QueryOf(WeekQuery) query: WeekQuery): Promise<Week> {
    return this.plans.week(viewer, null, query);
  }

  @Get('chains')
  @Answers(200, PlanChains)
  chains(@By() viewer: Viewer): Promise<PlanChains> {
    return this.plans.chains(viewer, null);
  }

  @Get('mix-sheets')
  @Answers(200, MixSheets)
  mixSheets(
    @By() viewer: Viewer,
    @QueryOf(MixSheetsQuery) query: MixSheetsQuery,
  ): Promise<MixSheets> {
    return this.sheets.list(viewer, null, query);
  }

  @Get('shopping')
  @Answers(200, PlanShopping)
  shopping(@By() viewer: Viewer): Promise<PlanShopping> {
    return this.sheets.shopping(viewer, null);
  }
}
