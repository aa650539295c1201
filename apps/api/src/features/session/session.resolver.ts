import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { ByAccount } from '../../platform/access/caller.ts';
import { From, type Origin } from '../../platform/access/origin.ts';
import { SignedIn } from '../../platform/access/session-shape.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { MySessionsService } from './my-sessions.service.ts';
import { ClosedSessions, type MySession, MySessionPage, SignIn } from './session.contract.ts';
import { SessionService } from './session.service.ts';

@Resolver()
export class SessionResolver {
  constructor(
    private readonly service: SessionService,
    private readonly mine: MySessionsService,
  ) {}

  @Mutation(() => SignedIn, { description: 'For programs: a browser signs in by REST.' })
  signIn(@ArgOf(SignIn) input: SignIn, @From() from: Origin): Promise<SignedIn> {
    return this.service.signIn(input, from);
  }

  @Mutation(() => Boolean)
  async signOut(@ByAccount() account: Account): Promise<boolean> {
    await this.service.signOut(account);
    return true;
  }

  @Query(() => MySessionPage, { name: 'mySessions' })
  list(@ByAccount() account: Account, @PageArg() page: PageRequest): Promise<Page<MySession>> {
    return this.mine.list(account, page);
  }

  @Mutation(() => Boolean, { name: 'closeSession' })
  async close(
    @ByAccount() account: Account,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<boolean> {
    await this.mine.close(account, id);
    return true;
  }

  @Mutation(() => ClosedSessions, { name: 'closeOtherSessions' })
  closeOthers(@ByAccount() account: Account): Promise<ClosedSessions> {
    return this.mine.closeOthers(account);
  }

  @Mutation(() => ClosedSessions)
  signOutEverywhere(@ByAccount() account: Account): Promise<ClosedSessions> {
    return this.mine.closeEvery(account);
  }
}
