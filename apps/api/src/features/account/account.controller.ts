import { Controller, Get, Inject, Patch, Post, Put, Res } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { ByAccount, ByMaybe } from '../../platform/access/caller.ts';
import { From, type Origin } from '../../platform/access/origin.ts';
import { giveCookie } from '../../platform/access/session-cookie.ts';
import { Session } from '../../platform/access/session-shape.ts';
import { SessionToken } from '../../platform/access/session-token.ts';
import type { Account, Caller } from '../../platform/access/viewer.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Me, MePatch, PasswordChange, PasswordReset, ResetRequest } from './account.contract.ts';
import { AccountService } from './account.service.ts';
import { PasswordService } from './password.service.ts';

@Controller()
export class AccountController {
  constructor(
    private readonly accounts: AccountService,
    private readonly passwords: PasswordService,
    @Inject(configToken) private readonly config: Config,
  ) {}

  @Get('me')
  @Answers(200, Me)
  me(@ByAccount() account: Account, @SessionToken() token: string): Promise<Me> {
    return this.accounts.me(account, token);
  }

  @Patch('me')
  @Answers(200, Me)
  update(
    @ByAccount() account: Account,
    @SessionToken() token: string,
    @IfMatch() revision: number,
    @BodyOf(MePatch) patch: MePatch,
  ): Promise<Me> {
    return this.accounts.update(account, token, revision, patch);
  }

  @Put('me/password')
  @Answers(200, Session)
  async changePassword(
    @ByAccount() account: Account,
    @ByMaybe() { by }: Caller,
    @BodyOf(PasswordChange) input: PasswordChange,
    @From() from: Origin,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<Session> {
    const session = await this.passwords.change(account, input, from);
    if (by === 'cookie') giveCookie(reply, session, this.config);
    return session;
  }

  @Post('password-resets')
  @Answers(204)
  requestReset(@BodyOf(ResetRequest) input: ResetRequest, @From() from: Origin): Promise<void> {
    return this.passwords.requestReset(input, from);
  }

  @Post('password-resets/complete')
  @Answers(204)
  reset(@BodyOf(PasswordReset) input: PasswordReset, @From() from: Origin): Promise<void> {
    return this.passwords.reset(input, from);
  }
}
