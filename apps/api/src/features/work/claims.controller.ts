import { Controller, Get, Param, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import type { Page } from '../../platform/paging/page.ts';
import { BodyOf, QueryOf } from '../../platform/shapes/input.ts';
import {
  Claim,
  ClaimInput,
  ClaimPage,
  ClaimsQuery,
  CrewChangeInput,
  LeftInput,
  MomentOfWorkInput,
  ProgressInput,
  ReasonInput,
  StartInput,
} from './claims.contract.ts';
import { ClaimsService } from './claims.service.ts';

@Controller('yards/:yardId')
export class ClaimsController {
  constructor(private readonly claims: ClaimsService) {}

  @Get('claims')
  @Answers(200, ClaimPage)
  list(
    @By() viewer: Viewer,
    @QueryOf(ClaimsQuery) { mine, status, ...page }: ClaimsQuery,
  ): Promise<Page<Claim>> {
    const wanted = { mine: mine !== undefined && mine !== 'false', status };
    return this.claims.list(viewer, wanted, page);
  }

  @Get('claims/:id')
  @Answers(200, Claim)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Claim> {
    return this.claims.get(viewer, id);
  }

  @Post('tasks/:taskId/claims')
  @Answers(201, Claim)
  claim(
    @By() viewer: Viewer,
    @Param('taskId') taskId: string,
    @BodyOf(ClaimInput) input: ClaimInput,
  ): Promise<Claim> {
    return this.claims.claim(viewer, taskId, input);
  }

  @Post('claims/:id/join')
  @Answers(200, Claim)
  join(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(CrewChangeInput) input: CrewChangeInput,
  ): Promise<Claim> {
    return this.claims.report(viewer, id, 'join', input);
  }

  @Post('claims/:id/leave')
  @Answers(200, Claim)
  leave(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(CrewChangeInput) input: CrewChangeInput,
  ): Promise<Claim> {
    return this.claims.report(viewer, id, 'leave', input);
  }

  @Post('claims/:id/release')
  @Answers(200, Claim)
  release(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(LeftInput) input: LeftInput,
  ): Promise<Claim> {
    return this.claims.report(viewer, id, 'release', input);
  }

  @Post('claims/:id/start')
  @Answers(200, Claim)
  start(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(StartInput) input: StartInput,
  ): Promise<Claim> {
    return this.claims.report(viewer, id, 'start', input);
  }

  @Post('claims/:id/pause')
  @Answers(200, Claim)
  pause(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(LeftInput) input: LeftInput,
  ): Promise<Claim> {
    return this.claims.report(viewer, id, 'pause', input);
  }

  @Post('claims/:id/resume')
  @Answers(200, Claim)
  resume(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(MomentOfWorkInput) input: MomentOfWorkInput,
  ): Promise<Claim> {
    return this.claims.report(viewer, id, 'resume', input);
  }

  @Post('claims/:id/progress')
  @Answers(200, Claim)
  progress(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(ProgressInput) input: ProgressInput,
  ): Promise<Claim> {
    return this.claims.report(viewer, id, 'progress', input);
  }

  @Post('claims/:id/finish')
  @Answers(200, Claim)
  finish(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(MomentOfWorkInput) input: MomentOfWorkInput,
  ): Promise<Claim> {
    return this.claims.report(viewer, id, 'finish', input);
  }

  @Post('claims/:id/abandon')
  @Answers(200, Claim)
  abandon(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(ReasonInput) input: ReasonInput,
  ): Promise<Claim> {
    return this.claims.report(viewer, id, 'abandon', input);
  }
}
