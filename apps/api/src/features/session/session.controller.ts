import { Controller, Delete, Get, Headers, Inject, Post, Res } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { ByAccount } from '../../platform/access/caller.ts';
import { Public, SignedIn } from '../../platform/access/rules.ts';
import { cookieHeader, tokenOf } from '../../platform/access/token.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { Answers } from '../../platform/http/answers.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Me, Session, SignIn } from './session.contract.ts';
import { SessionService } from './session.service.ts';

@Controller()
export class SessionController {
  constructor(
    private readonly service: SessionService,
    @Inject(configToken) private readonly config: Config,
  ) {}

  @Post('sessions')
  @Public()
  @Answers(201, Session)
  async signIn(
    @BodyOf(SignIn) input: SignIn,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<Session> {
    const session = await this.service.signIn(input);
    const seconds = Math.floor((Date.parse(session.expiresAt) - Date.now()) / 1000);
    void reply.header('set-cookie', cookieHeader(session.token, seconds, this.config.secureCookie));
    return session;
  }

  @Delete('sessions/current')
  @SignedIn()
  @Answers(204)
  async signOut(
    @Headers() headers: Record<string, string>,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<void> {
    await this.service.signOut(tokenOf(headers));
    void reply.header('set-cookie', cookieHeader('', 0, this.config.secureCookie));
  }

  @Get('me')
  @SignedIn()
  @Answers(200, Me)
  me(@ByAccount() account: Account): Promise<Me> {
    return this.service.me(account);
  }
}
