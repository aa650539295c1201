import { Inject, Injectable } from '@nestjs/common';
import { scopes } from '#access/rule.ts';
import { callerOf, callerOfKey } from '#persistence/access/lookups.ts';
import { hashOf } from '#persistence/access/token.ts';
import { type Config, configToken } from '../config/config.ts';
import { Database } from '../database/database.ts';
import type { Credential } from './token.ts';
import { type Caller, seesOf } from './viewer.ts';

/** What one look-up tells of a caller. */
export interface Known {
  readonly caller: Caller;
  /** The yard asks for a second factor, and the session has shown none. */
  readonly lacksSecondFactor: boolean;
  /** When the credential ends by itself; null where there is none. */
  readonly endsAt: Date | null;
  /** Under which words the database tells of changes to any of this (`curewright_access`). */
  readonly notices: readonly string[];
}

const nobody: Known = {
  caller: { by: null },
  lacksSecondFactor: false,
  endsAt: null,
  notices: [],
};

/** Whose a credential is, and who that is in a yard: one statement, whatever the answer. */
@Injectable()
export class Callers {
  constructor(
    private readonly database: Database,
    @Inject(configToken) private readonly config: Config,
  ) {}

  /** `touch`: it is a sign of life, from which the idle end of a session counts anew. */
  known(
    credential: Credential | undefined,
    yardId: string | undefined,
    touch: boolean,
  ): Promise<Known> {
    if (credential === undefined) return Promise.resolve(nobody);
    const { by, token } = credential;
    return by === 'key'
      ? this.#ofKey(token, yardId, touch)
      : this.#ofSession(by, token, yardId, touch);
  }

  async #ofSession(
    by: 'session' | 'cookie',
    token: string,
    yardId: string | undefined,
    touch: boolean,
  ): Promise<Known> {
    const idleMinutes = this.config.sessionIdleMinutes;
    const found = await this.database.lookUp((db) =>
      callerOf(db, hashOf(token), yardId ?? null, idleMinutes, touch),
    );
    if (!found) return nobody;
    const { accountId, email, name, sessionId, memberId, roles, expiresAt } = found;
    const account = { accountId, email, name, sessionId };
    const notice = `session:${sessionId}`;
    if (yardId === undefined || memberId === null || roles === null) {
      const caller = { by, account };
      return { caller, lacksSecondFactor: false, endsAt: expiresAt, notices: [notice] };
    }
    const viewer = { accountId, yardId, memberId, roles, sees: seesOf(roles) };
    return {
      caller: { by, account, viewer },
      lacksSecondFactor: found.secondFactorRequired && found.secondFactorAt === null,
      endsAt: expiresAt,
      notices: [notice, `member:${yardId}:${memberId}`, `yard:${yardId}`],
    };
  }

  async #ofKey(token: string, yardId: string | undefined, touch: boolean): Promise<Known> {
    const found = await this.database.lookUp((db) => callerOfKey(db, hashOf(token), touch));
    if (!found) return nobody;
    const { keyId, accountId, memberId, roles, expiresAt } = found;
    const keyScopes = scopes.filter((scope) => found.scopes.includes(scope));
    // Asked for no second factor: when a yard begins to ask, its keys are revoked, and those who
    // make new ones have shown theirs.
    const viewer = { accountId, yardId: found.yardId, memberId, roles, sees: seesOf(roles) };
    return {
      // A key opens the yard that it was made in, and no other.
      caller: { by: 'key', keyScopes, ...(found.yardId === yardId ? { viewer } : {}) },
      lacksSecondFactor: false,
      endsAt: expiresAt,
      notices: [`key:${keyId}`, `member:${found.yardId}:${memberId}`],
    };
  }
}
