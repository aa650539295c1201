import { Args, ID, Mutation, Query, registerEnumType, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { Claim, ClaimInput, ClaimPage, MomentOfWorkInput } from './claims.contract.ts';
import { ClaimsService } from './claims.service.ts';
import { Ready } from './ready.contract.ts';
import { ReadyService } from './ready.service.ts';

const Whose = { MINE: 'mine', ALL: 'all' } as const;
registerEnumType(Whose, { name: 'Whose' });

const IdArg = (name = 'id'): ParameterDecorator => Args(name, { type: () => ID });

@Resolver(() => Claim)
export class WorkResolver {
  constructor(
    private readonly work: ReadyService,
    private readonly claimed: ClaimsService,
  ) {}

  @Query(() => Ready)
  ready(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('whose', { type: () => Whose, nullable: true }) whose?: 'mine' | 'all',
  ): Promise<Ready> {
    return this.work.ready(viewer, whose ?? undefined);
  }

  @Query(() => ClaimPage)
  claims(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
    @Args('mine', { type: () => Boolean, defaultValue: false }) mine: boolean,
  ): Promise<Page<Claim>> {
    return this.claimed.list(viewer, { mine, status: undefined }, page);
  }

  @Query(() => Claim)
  claim(@By() viewer: Viewer, @YardArg() _yardId: string, @IdArg() id: string): Promise<Claim> {
    return this.claimed.get(viewer, id);
  }

  @Mutation(() => Claim)
  claimTask(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg('taskId') taskId: string,
    @ArgOf(ClaimInput) input: ClaimInput,
  ): Promise<Claim> {
    return this.claimed.claim(viewer, taskId, input);
  }

  @Mutation(() => Claim)
  releaseClaim(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg() id: string,
  ): Promise<Claim> {
    return this.claimed.release(viewer, id);
  }

  @Mutation(() => Claim)
  startClaim(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg() id: string,
    @ArgOf(MomentOfWorkInput) input: MomentOfWorkInput,
  ): Promise<Claim> {
    return this.claimed.start(viewer, id, input);
  }

  @Mutation(() => Claim)
  finishClaim(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @IdArg() id: string,
    @ArgOf(MomentOfWorkInput) input: MomentOfWorkInput,
  ): Promise<Claim> {
    return this.claimed.finish(viewer, id, input);
  }
}
