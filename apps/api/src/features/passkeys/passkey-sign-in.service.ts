import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { passkeyOf } from '#persistence/access/lookups.ts';
import type { Origin } from '../../platform/access/origin.ts';
import type { Session } from '../../platform/access/session-shape.ts';
import { Sessions } from '../../platform/access/sessions.ts';
import { Database } from '../../platform/database/database.ts';
import { SignInLimits } from '../../platform/limits/sign-in-limits.ts';
import { Challenges } from './challenges.ts';
import type { PasskeyRequest, PasskeySignInInput } from './passkeys.contract.ts';
import { checkUsed, requestOptions } from './webauthn.ts';

/**
 * Signing in with a passkey alone: its device has verified the person, so it is two factors in one
 * (NIST SP 800-63B-4, multi-factor cryptographic authenticators).
 */
@Injectable()
export class PasskeySignInService {
  constructor(
    private readonly database: Database,
    private readonly challenges: Challenges,
    private readonly sessions: Sessions,
    private readonly limits: SignInLimits,
  ) {}

  async options(): Promise<PasskeyRequest> {
    const options = await requestOptions(this.challenges.site);
    const challengeId = await this.database.nowhere((tx) =>
      this.challenges.keep(tx, null, options.challenge),
    );
    return { challengeId, options };
  }

  async signIn(
    { challengeId, credential }: PasskeySignInInput,
    { address, agent }: Origin,
  ): Promise<Session> {
    await this.limits.attempt(null, address);
    const challenge = await this.challenges.take(challengeId, null);
    const known = await this.database.lookUp((db) => passkeyOf(db, credential.id));
    if (!known) throw new DomainError('access.passkey');
    const { accountId, publicKey, counter, transports } = known;
    const newCounter = await checkUsed(this.challenges.site, challenge, credential, accountId, {
      id: credential.id,
      publicKey,
      counter: Number(counter),
      transports,
    });
    const session = await this.sessions.open(
      accountId,
      { agent, secondFactor: true },
      // Of two that sign at once with one counter, one is a copy: the second finds it moved on.
      async (tx) => {
        const { count } = await tx.passkey.updateMany({
          where: { id: credential.id, counter },
          data: { counter: newCounter, lastUsedAt: new Date() },
        });
        if (count !== 1) throw new DomainError('access.passkey');
      },
    );
    await this.limits.succeeded(null, address);
    return session;
  }
}
