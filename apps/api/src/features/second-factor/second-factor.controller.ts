import { Controller, Delete, Get, Inject, Post, Res } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { ByAccount, ByMaybe } from '../../platform/access/caller.ts';
import { From, type Origin } from '../../platform/access/origin.ts';
import { giveCookie } from '../../platform/access/session-cookie.ts';
import { Session } from '../../platform/access/session-shape.ts';
import type { Account, Caller } from '../../platform/access/viewer.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { Answers } from '../../platform/http/answers.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
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

@Controller()
export class SecondFactorController {
  constructor(
    private readonly factor: SecondFactorService,
    private readonly codes: CodeSignInService,
    @Inject(configToken) private readonly config: Config,
  ) {}

  /** The second step of signing in. */
  @Post('sessions/second-factor')
  @Answers(201, Session)
  async signIn(
    @From() from: Origin,
    @BodyOf(CodeSignInInput) input: CodeSignInInput,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<Session> {
    const session = await this.codes.signIn(input, from);
    giveCookie(reply, session, this.config);
    return session;
  }

  /** Shows a second factor in a session that was opened without one. */
  @Post('sessions/current/second-factor')
  @Answers(200, Session)
  async stepUp(
    @ByAccount() account: Account,
    @ByMaybe() { by }: Caller,
    @From() from: Origin,
    @BodyOf(SecondFactorCodeInput) input: SecondFactorCodeInput,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<Session> {
    const session = await this.codes.stepUp(account, input, from);
    if (by === 'cookie') giveCookie(reply, session, this.config);
    return session;
  }

  @Get('second-factor')
  @Answers(200, SecondFactor)
  get(@ByAccount() account: Account): Promise<SecondFactor> {
    return this.factor.get(account);
  }

  @Post('second-factor/totp')
  @Answers(201, TotpSetUp)
  setUp(
    @ByAccount() account: Account,
    @From() from: Origin,
    @BodyOf(TotpSetUpInput) input: TotpSetUpInput,
  ): Promise<TotpSetUp> {
    return this.factor.setUp(account, input, from);
  }

  @Post('second-factor/totp/confirm')
  @Answers(200, TotpConfirmed)
  async confirm(
    @ByAccount() account: Account,
    @ByMaybe() { by }: Caller,
    @From() from: Origin,
    @BodyOf(TotpConfirmInput) input: TotpConfirmInput,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<TotpConfirmed> {
    const confirmed = await this.factor.confirm(account, input, from);
    if (by === 'cookie') giveCookie(reply, confirmed.session, this.config);
    return confirmed;
  }

  @Delete('second-factor/totp')
  @Answers(204)
  remove(
    @ByAccount() account: Account,
    @From() from: Origin,
    @BodyOf(FactorChangeInput) input: FactorChangeInput,
  ): Promise<void> {
    return this.factor.remove(account, input, from);
  }

  @Post('second-factor/recovery-codes')
  @Answers(201, RecoveryCodes)
  renewCodes(
    @ByAccount() account: Account,
    @From() from: Origin,
    @BodyOf(FactorChangeInput) input: FactorChangeInput,
  ): Promise<RecoveryCodes> {
    return this.factor.renewCodes(account, input, from);
  }
}
