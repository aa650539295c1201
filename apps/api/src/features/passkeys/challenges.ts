import { randomUUID } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { takeChallenge } from '#persistence/access/lookups.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { ceremonyMs, type Site, siteOf } from './webauthn.ts';

/** What authenticators are asked to sign: kept until the answer, which takes it back. */
@Injectable()
export class Challenges {
  constructor(
    private readonly database: Database,
    @Inject(configToken) private readonly config: Config,
  ) {}

  /** Of PUBLIC_URL as it is now: with any free port it is known only once the service listens. */
  get site(): Site {
    return siteOf(this.config.publicUrl);
  }

  /** `accountId` null: at sign-in, from whoever the passkey says. */
  async keep(tx: Tx, accountId: string | null, challenge: string): Promise<string> {
    const id = randomUUID();
    const expiresAt = new Date(Date.now() + ceremonyMs);
    // Not `create`, which reads the row back: nobody may read those that belong to no account.
    await tx.passkeyChallenge.createMany({ data: [{ id, accountId, challenge, expiresAt }] });
    return id;
  }

  /** Answered once, rightly or wrongly, by whom it was given to. Throws `access.passkey`. */
  async take(id: string, accountId: string | null): Promise<string> {
    const taken = await this.database.lookUp((db) => takeChallenge(db, id));
    if (taken?.accountId !== accountId) {
      throw new DomainError('access.passkey', 'The request was answered already, or is too old.', {
        cure: 'Ask for new options, and answer them within five minutes.',
      });
    }
    return taken.challenge;
  }
}
