import { Inject } from '@nestjs/common';
import { Context, Mutation, Query, Resolver } from '@nestjs/graphql';
import { ByAccount, ByMaybe } from '../../platform/access/caller.ts';
import { From, type Origin } from '../../platform/access/origin.ts';
import { type Answering, giveCookie } from '../../platform/access/session-cookie.ts';
import { Session } from '../../platform/access/session-shape.ts';
import type { Account, Caller } from '../../platform/access/viewer.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { CodeSignInService } from './code-sign-in.service.ts';
import {
  CodeSignInInput,
  FactorChangeInput,
  RecoveryCodes,
  SecondFactor,
  SecondFactorCodeInput,
  TotpConfirmed,
  TotpConfirmInput,
  TotpSetUp,
  TotpSetUpInput,
} from './second-factor.contract.ts';
import { SecondFactorService } from './second-factor.service.ts';

@Resolver()
export class SecondFactorResolver {
  constructor(
    private readonly factor: SecondFactorService,
    private readonly codes: CodeSignInService,
    @Inject(configToken) private readonly config: Config,
  ) {}

  @Mutation(() => Session)
  signInWithCode(
    @From() from: Origin,
    @ArgOf(CodeSignInInput) input: CodeSignInInput,
  ): Promise<Session> {
    return this.codes.signIn(input, from);
  }

  @Mutation(() => Session)
  async showSecondFactor(
    @ByAccount() account: Account,
    @ByMaybe() { by }: Caller,
    @From() from: Origin,
    @ArgOf(SecondFactorCodeInput) input: SecondFactorCodeInput,
    @Context() { reply }: Answering,
  ): Promise<Session> {
    const session = await this.codes.stepUp(account, input, from);
    if (by === 'cookie') giveCookie(reply, session, this.config);
    return session;
  }

  @Query(() => SecondFactor)
  secondFactor(@ByAccount() account: Account): Promise<SecondFactor> {
    return this.factor.get(account);
  }

  @Mutation(() => TotpSetUp)
  setUpTotp(
    @ByAccount() account: Account,
    @From() from: Origin,
    @ArgOf(TotpSetUpInput) input: TotpSetUpInput,
  ): Promise<TotpSetUp> {
    return this.factor.setUp(account, input, from);
  }

  @Mutation(() => TotpConfirmed)
  async confirmTotp(
    @ByAccount() account: Account,
    @ByMaybe() { by }: Caller,
    @From() from: Origin,
    @ArgOf(TotpConfirmInput) input: TotpConfirmInput,
    @Context() { reply }: Answering,
  ): Promise<TotpConfirmed> {
    const confirmed = await this.factor.confirm(account, input, from);
    if (by === 'cookie') giveCookie(reply, confirmed.session, this.config);
    return confirmed;
  }

  @Mutation(() => Boolean)
  async removeTotp(
    @ByAccount() account: Account,
    @From() from: Origin,
    @ArgOf(FactorChangeInput) input: FactorChangeInput,
  ): Promise<boolean> {
    await this.factor.remove(account, input, from);
    return true;
  }

  @Mutation(() => RecoveryCodes)
  renewRecoveryCodes(
    @ByAccount() account: Account,
    @From() from: Origin,
    @ArgOf(FactorChangeInput) input: FactorChangeInput,
  ): Promise<RecoveryCodes> {
    return this.factor.renewCodes(account, input, from);
  }
}
