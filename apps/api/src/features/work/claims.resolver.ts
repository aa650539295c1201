import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import {
  Claim,
  ClaimInput,
  ClaimPage,
  CrewChangeInput,
  LeftInput,
  MomentOfWorkInput,
  ProgressInput,
  ReasonInput,
  StartInput,
} from './claims.contract.ts';
import { ClaimsService } from './claims.service.ts';

const IdArg = (name = 'id'): ParameterDecorator => Args(name, { type: () => ID });

@Resolver(() => Claim)
export class ClaimsResolver {
  constructor(private readonly held: ClaimsService) {}

  @Query(() => ClaimPage)
  claims(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
    @Args('mine', { type: () => Boolean, defaultValue: false }) mine: boolean,
  ): Promise<Page<Claim>> {
    return this.held.list(viewer, { mine, status: undefined }, page);
  }

  @Query(() => Claim)
  claim(@By() viewer: Viewer, @YardArg() _yardId: string, @IdArg() id: string): Promise<Claim> {
    return this.held.get(viewer, id);
  }

  @Mutation(() => Claim)
  claimTask(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg('taskId') taskId: string,
    @ArgOf(ClaimInput) input: ClaimInput,
  ): Promise<Claim> {
    return this.held.claim(viewer, taskId, input);
  }

  @Mutation(() => Claim)
  joinClaim(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg() id: string,
    @ArgOf(CrewChangeInput) input: CrewChangeInput,
  ): Promise<Claim> {
    return this.held.report(viewer, id, 'join', input);
  }

  @Mutation(() => Claim)
  leaveClaim(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg() id: string,
    @ArgOf(CrewChangeInput) input: CrewChangeInput,
  ): Promise<Claim> {
    return this.held.report(viewer, id, 'leave', input);
  }

  @Mutation(() => Claim)
  releaseClaim(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg() id: string,
    @ArgOf(LeftInput) input: LeftInput,
  ): Promise<Claim> {
    return this.held.report(viewer, id, 'release', input);
  }

  @Mutation(() => Claim)
  startClaim(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg() id: string,
    @ArgOf(StartInput) input: StartInput,
  ): Promise<Claim> {
    return this.held.report(viewer, id, 'start', input);
  }

  @Mutation(() => Claim)
  pauseClaim(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg() id: string,
    @ArgOf(LeftInput) input: LeftInput,
  ): Promise<Claim> {
    return this.held.report(viewer, id, 'pause', input);
  }

  @Mutation(() => Claim)
  resumeClaim(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg() id: string,
    @ArgOf(MomentOfWorkInput) input: MomentOfWorkInput,
  ): Promise<Claim> {
    return this.held.report(viewer, id, 'resume', input);
  }

  @Mutation(() => Claim)
  reportProgress(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg() id: string,
    @ArgOf(ProgressInput) input: ProgressInput,
  ): Promise<Claim> {
    return this.held.report(viewer, id, 'progress', input);
  }

  @Mutation(() => Claim)
  finishClaim(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg() id: string,
    @ArgOf(MomentOfWorkInput) input: MomentOfWorkInput,
  ): Promise<Claim> {
    return this.held.report(viewer, id, 'finish', input);
  }

  @Mutation(() => Claim)
  abandonClaim(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg() id: string,
    @ArgOf(ReasonInput) input: ReasonInput,
  ): Promise<Claim> {
    return this.held.report(viewer, id, 'abandon', input);
  }
}
