import { Controller, Get, Param } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { QueryOf } from '../../platform/shapes/input.ts';
import {
  PlanCheck,
  WhatShortens,
  WhatShortensQuery,
  WhyNotEarlier,
  WhyNotEarlierQuery,
} from './explanations.contract.ts';
import { ExplanationsService } from './explanations.service.ts';

@Controller('yards/:yardId/plans/:id')
export class ExplanationsController {
  constructor(private readonly explanations: ExplanationsService) {}

  /** Why a task does not start earlier, everything else as planned. */
  @Get('tasks/:taskId/why-not-earlier')
  @Answers(200, WhyNotEarlier)
  whyNotEarlier(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @Param('taskId') taskId: string,
    @QueryOf(WhyNotEarlierQuery) query: WhyNotEarlierQuery,
  ): Promise<WhyNotEarlier> {
    return this.explanations.whyNotEarlier(viewer, id, taskId, query);
  }

  /** What holds the boats up, and how much earlier they were found to finish without each of it. */
  @Get('what-shortens')
  @Answers(200, WhatShortens)
  whatShortens(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @QueryOf(WhatShortensQuery) query: WhatShortensQuery,
  ): Promise<WhatShortens> {
    return this.explanations.whatShortens(viewer, id, query);
  }

  /** The checker's word on the plan, by the problem it was made for. */
  @Get('check')
  @Answers(200, PlanCheck)
  check(@By() viewer: Viewer, @Param('id') id: string): Promise<PlanCheck> {
    return this.explanations.check(viewer, id);
  }
}
