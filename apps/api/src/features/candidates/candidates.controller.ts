import { Controller, Get, Param, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import type { Page } from '../../platform/paging/page.ts';
import { QueryOf } from '../../platform/shapes/input.ts';
import {
  Candidate,
  CandidatePage,
  CandidatesQuery,
  CandidateView,
  DifferenceQuery,
  PlanDifference,
  ReplanRequest,
} from './candidates.contract.ts';
import { CandidatesService } from './candidates.service.ts';

@Controller('yards/:yardId')
export class CandidatesController {
  constructor(private readonly candidates: CandidatesService) {}

  /** Newest first. */
  @Get('candidates')
  @Answers(200, CandidatePage)
  list(
    @By() viewer: Viewer,
    @QueryOf(CandidatesQuery) query: CandidatesQuery,
  ): Promise<Page<Candidate>> {
    return this.candidates.list(viewer, query);
  }

  @Get('candidates/:planId')
  @Answers(200, CandidateView)
  get(@By() viewer: Viewer, @Param('planId') planId: string): Promise<CandidateView> {
    return this.candidates.get(viewer, planId);
  }

  /** Asks for a plan of what is so now; where one comes of it that is worth a look, it is a candidate. */
  @Post('candidates')
  @Answers(202, ReplanRequest)
  ask(@By() viewer: Viewer): Promise<ReplanRequest> {
    return this.candidates.ask(viewer);
  }

  @Post('candidates/:planId/discard')
  @Answers(200, Candidate)
  discard(@By() viewer: Viewer, @Param('planId') planId: string): Promise<Candidate> {
    return this.candidates.discard(viewer, planId);
  }

  /** In words, by boat, by task, by person. */
  @Get('plans/:id/difference')
  @Answers(200, PlanDifference)
  difference(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @QueryOf(DifferenceQuery) query: DifferenceQuery,
  ): Promise<PlanDifference> {
    return this.candidates.difference(viewer, id, query);
  }
}
