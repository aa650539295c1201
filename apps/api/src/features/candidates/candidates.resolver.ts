import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import {
  Candidate,
  CandidatePage,
  CandidateView,
  DifferenceQuery,
  PlanDifference,
  ReplanRequest,
} from './candidates.contract.ts';
import { CandidatesService } from './candidates.service.ts';

const PlanIdArg = (): ParameterDecorator => Args('planId', { type: () => ID });

@Resolver(() => Candidate)
export class CandidatesResolver {
  constructor(private readonly candidates: CandidatesService) {}

  @Query(() => CandidatePage, { name: 'candidates' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Candidate>> {
    return this.candidates.list(viewer, page);
  }

  @Query(() => CandidateView, { name: 'candidate' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PlanIdArg() planId: string,
  ): Promise<CandidateView> {
    return this.candidates.get(viewer, planId);
  }

  @Query(() => PlanDifference, { name: 'planDifference' })
  difference(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @ArgOf(DifferenceQuery) input: DifferenceQuery,
  ): Promise<PlanDifference> {
    return this.candidates.difference(viewer, id, input);
  }

  @Mutation(() => ReplanRequest, { name: 'askForCandidate' })
  ask(@By() viewer: Viewer, @YardArg() _yardId: string): Promise<ReplanRequest> {
    return this.candidates.ask(viewer);
  }

  @Mutation(() => Candidate, { name: 'discardCandidate' })
  discard(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PlanIdArg() planId: string,
  ): Promise<Candidate> {
    return this.candidates.discard(viewer, planId);
  }
}
