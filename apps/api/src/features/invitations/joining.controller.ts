import { Controller, Inject, Post, Res } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { ByMaybe } from '../../platform/access/caller.ts';
import { From, type Origin } from '../../platform/access/origin.ts';
import { giveCookie } from '../../platform/access/session-cookie.ts';
import type { Caller } from '../../platform/access/viewer.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { Answers } from '../../platform/http/answers.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import {
  InvitationAcceptance,
  InvitationPreview,
  InvitationToken,
  Joining,
} from './joining.contract.ts';
import { JoiningService } from './joining.service.ts';

/** POST although a preview changes nothing: a token in an address would stay in logs. */
@Controller('invitations')
export class JoiningController {
  constructor(
    private readonly joining: JoiningService,
    @Inject(configToken) private readonly config: Config,
  ) {}

  @Post('preview')
  @Answers(200, InvitationPreview)
  preview(
    @BodyOf(InvitationToken) input: InvitationToken,
    @From() from: Origin,
  ): Promise<InvitationPreview> {
    return this.joining.preview(input, from);
  }

  /** Signed in, that account comes in; else it makes one and signs it in. */
  @Post('accept')
  @Answers(200, Joining)
  async accept(
    @ByMaybe() caller: Caller,
    @BodyOf(InvitationAcceptance) input: InvitationAcceptance,
    @From() from: Origin,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<Joining> {
    const joined = await this.joining.accept(caller, input, from);
    if (joined.session) giveCookie(reply, joined.session, this.config);
    return joined;
  }
}
