import { Controller, Delete, Get, Inject, Param, Patch, Post, Res } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { ByAccount } from '../../platform/access/caller.ts';
import { From, type Origin } from '../../platform/access/origin.ts';
import { giveCookie } from '../../platform/access/session-cookie.ts';
import { Session } from '../../platform/access/session-shape.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { Answers } from '../../platform/http/answers.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { PasskeySignInService } from './passkey-sign-in.service.ts';
import {
  Passkey,
  PasskeyCreation,
  PasskeyInput,
  PasskeyList,
  PasskeyOptionsInput,
  PasskeyPatch,
  PasskeyRequest,
  PasskeySignInInput,
} from './passkeys.contract.ts';
import { PasskeysService } from './passkeys.service.ts';

@Controller()
export class PasskeysController {
  constructor(
    private readonly passkeys: PasskeysService,
    private readonly signIns: PasskeySignInService,
    @Inject(configToken) private readonly config: Config,
  ) {}

  /** For `PublicKeyCredential.parseRequestOptionsFromJSON`. */
  @Post('sessions/passkey/options')
  @Answers(201, PasskeyRequest)
  signInOptions(): Promise<PasskeyRequest> {
    return this.signIns.options();
  }

  @Post('sessions/passkey')
  @Answers(201, Session)
  async signIn(
    @From() from: Origin,
    @BodyOf(PasskeySignInInput) input: PasskeySignInInput,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<Session> {
    const session = await this.signIns.signIn(input, from);
    giveCookie(reply, session, this.config);
    return session;
  }

  @Get('passkeys')
  @Answers(200, PasskeyList)
  list(@ByAccount() account: Account): Promise<PasskeyList> {
    return this.passkeys.list(account);
  }

  /** For `PublicKeyCredential.parseCreationOptionsFromJSON`. */
  @Post('passkeys/options')
  @Answers(201, PasskeyCreation)
  options(
    @ByAccount() account: Account,
    @From() from: Origin,
    @BodyOf(PasskeyOptionsInput) input: PasskeyOptionsInput,
  ): Promise<PasskeyCreation> {
    return this.passkeys.options(account, input, from);
  }

  @Post('passkeys')
  @Answers(201, Passkey)
  add(@ByAccount() account: Account, @BodyOf(PasskeyInput) input: PasskeyInput): Promise<Passkey> {
    return this.passkeys.add(account, input);
  }

  @Patch('passkeys/:id')
  @Answers(200, Passkey)
  rename(
    @ByAccount() account: Account,
    @Param('id') id: string,
    @BodyOf(PasskeyPatch) patch: PasskeyPatch,
  ): Promise<Passkey> {
    return this.passkeys.rename(account, id, patch);
  }

  @Delete('passkeys/:id')
  @Answers(204)
  remove(@ByAccount() account: Account, @Param('id') id: string): Promise<void> {
    return this.passkeys.remove(account, id);
  }
}
