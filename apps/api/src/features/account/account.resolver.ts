import { Inject } from '@nestjs/common';
import { Args, Context, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { ByAccount, ByMaybe } from '../../platform/access/caller.ts';
import { From, type Origin } from '../../platform/access/origin.ts';
import { type Answering, giveCookie } from '../../platform/access/session-cookie.ts';
import { Session } from '../../platform/access/session-shape.ts';
import { SessionToken } from '../../platform/access/session-token.ts';
import type { Account, Caller } from '../../platform/access/viewer.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { Me, MePatch, PasswordChange, PasswordReset, ResetRequest } from './account.contract.ts';
import { AccountService } from './account.service.ts';
import { PasswordService } from './password.service.ts';

@Resolver(() => Me)
export class AccountResolver {
  constructor(
    private readonly accounts: AccountService,
    private readonly passwords: PasswordService,
    @Inject(configToken) private readonly config: Config,
  ) {}

  @Query(() => Me)
  me(@ByAccount() account: Account, @SessionToken() token: string): Promise<Me> {
    return this.accounts.me(account, token);
  }

  @Mutation(() => Me, { name: 'updateMe' })
  update(
    @ByAccount() account: Account,
    @SessionToken() token: string,
    @Args('revision', { type: () => Int }) revision: number,
    @ArgOf(MePatch) patch: MePatch,
  ): Promise<Me> {
    return this.accounts.update(account, token, revision, patch);
  }

  @Mutation(() => Session)
  async changePassword(
    @ByAccount() account: Account,
    @ByMaybe() { by }: Caller,
    @ArgOf(PasswordChange) input: PasswordChange,
    @From() from: Origin,
    @Context() { reply }: Answering,
  ): Promise<Session> {
    const session = await this.passwords.change(account, input, from);
    if (by === 'cookie') giveCookie(reply, session, this.config);
    return session;
  }

  @Mutation(() => Boolean, { description: 'True whether or not there is such an account.' })
  async requestPasswordReset(
    @ArgOf(ResetRequest) input: ResetRequest,
    @From() from: Origin,
  ): Promise<boolean> {
    await this.passwords.requestReset(input, from);
    return true;
  }

  @Mutation(() => Boolean, { name: 'completePasswordReset' })
  async reset(@ArgOf(PasswordReset) input: PasswordReset, @From() from: Origin): Promise<boolean> {
    await this.passwords.reset(input, from);
    return true;
  }
}
