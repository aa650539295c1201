import { Controller, Delete, Get, Inject, Param, Post, Res } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { ByAccount } from '../../platform/access/caller.ts';
import { From, type Origin } from '../../platform/access/origin.ts';
import { giveCookie, takeCookie } from '../../platform/access/session-cookie.ts';
import { SignedIn } from '../../platform/access/session-shape.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { MySessionsService } from './my-sessions.service.ts';
import { ClosedSessions, type MySession, MySessionPage, SignIn } from './session.contract.ts';
import { SessionService } from './session.service.ts';

@Controller('sessions')
export class SessionController {
  constructor(
    private readonly service: SessionService,
    private readonly mine: MySessionsService,
    @Inject(configToken) private readonly config: Config,
  ) {}

  @Post()
  @Answers(201, SignedIn)
  async signIn(
    @BodyOf(SignIn) input: SignIn,
    @From() from: Origin,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<SignedIn> {
    const signedIn = await this.service.signIn(input, from);
    if ('token' in signedIn) giveCookie(reply, signedIn, this.config);
    return signedIn;
  }

  @Get()
  @Answers(200, MySessionPage)
  list(@ByAccount() account: Account, @PageOf() page: PageRequest): Promise<Page<MySession>> {
    return this.mine.list(account, page);
  }

  @Delete('current')
  @Answers(204)
  async signOut(
    @ByAccount() account: Account,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<void> {
    await this.service.signOut(account);
    takeCookie(reply, this.config);
  }

  @Delete('others')
  @Answers(200, ClosedSessions)
  closeOthers(@ByAccount() account: Account): Promise<ClosedSessions> {
    return this.mine.closeOthers(account);
  }

  @Delete(':id')
  @Answers(204)
  close(@ByAccount() account: Account, @Param('id') id: string): Promise<void> {
    return this.mine.close(account, id);
  }

  @Delete()
  @Answers(200, ClosedSessions)
  async signOutEverywhere(
    @ByAccount() account: Account,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<ClosedSessions> {
    const closed = await this.mine.closeEvery(account);
    takeCookie(reply, this.config);
    return closed;
  }
}
