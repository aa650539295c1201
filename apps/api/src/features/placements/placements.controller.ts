import { Controller, Get, Param, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { PlacementInput, TaskOfPlan, TriedPlacement } from './placements.contract.ts';
import { PlacementsService } from './placements.service.ts';

@Controller('yards/:yardId/plans/:id/tasks/:taskId')
export class PlacementsController {
  constructor(private readonly placements: PlacementsService) {}

  @Get()
  @Answers(200, TaskOfPlan)
  get(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @Param('taskId') taskId: string,
  ): Promise<TaskOfPlan> {
    return this.placements.get(viewer, id, taskId);
  }

  /** Judges the plan with this one task elsewhere or with others on it; nothing is saved. */
  @Post('placements')
  @Answers(200, TriedPlacement)
  tryPlacement(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @Param('taskId') taskId: string,
    @BodyOf(PlacementInput) input: PlacementInput,
  ): Promise<TriedPlacement> {
    return this.placements.tryPlacement(viewer, id, taskId, input);
  }
}
