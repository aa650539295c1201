import { Inject, Injectable } from '@nestjs/common';
import { hashOf, newToken } from '#persistence/access/token.ts';
import { DomainError } from '#kernel/error.ts';
import { type Config, configToken } from '../config/config.ts';
import { Database, type Tx } from '../database/database.ts';
import { csrfOf } from './csrf.ts';
import type { Session } from './session-shape.ts';
import type { Account } from './viewer.ts';

const dayMs = 24 * 60 * 60 * 1000;

/** How long the second factor may take after the password. */
const pendingMs = 5 * 60 * 1000;

interface Opening {
  readonly agent: string;
  /** Whether one was shown. A passkey is two in one. */
  readonly secondFactor: boolean;
}

/** Throws where what the sign-in was judged by is not so any more; it holds until the session is there. */
export type StillSo = (tx: Tx) => Promise<void>;

const always: StillSo = () => Promise.resolve();

/** Opens and closes sessions; whose a token is, the guard asks the database. */
@Injectable()
export class Sessions {
  constructor(
    private readonly database: Database,
    @Inject(configToken) private readonly config: Config,
  ) {}

  /** A new session; the token is known to nobody else. */
  async open(
    accountId: string,
    { agent, secondFactor }: Opening,
    stillSo = always,
  ): Promise<Session> {
    const token = newToken();
    const now = Date.now();
    const expiresAt = new Date(now + this.config.sessionDays * dayMs);
    const secondFactorAt = secondFactor ? new Date(now) : null;
    const data = { tokenHash: hashOf(token), accountId, agent, secondFactorAt, expiresAt };
    await this.database.asAccount(accountId, async (tx) => {
      await stillSo(tx);
      await tx.session.create({ data });
    });
    return shown(token, expiresAt);
  }

  /** The password was right: what to send with a code of the second factor, within five minutes. */
  async openPending(accountId: string, agent: string, stillSo = always): Promise<string> {
    const token = newToken();
    const expiresAt = new Date(Date.now() + pendingMs);
    await this.database.asAccount(accountId, async (tx) => {
      await stillSo(tx);
      await tx.pendingSignIn.create({
        data: { tokenHash: hashOf(token), accountId, agent, expiresAt },
      });
    });
    return token;
  }

  /** Ends the session that the call came with. */
  async close({ accountId, sessionId }: Account): Promise<void> {
    await this.database.asAccount(accountId, (tx) =>
      tx.session.deleteMany({ where: { id: sessionId, accountId } }),
    );
  }
}

/**
 * The same session under a new token, the old one being void: who gains a right gets a new secret,
 * and who changes the password is rid of whoever has the old one (OWASP Session Management Cheat
 * Sheet, "Renew the Session ID After Any Privilege Level Change"). In a transaction of the account.
 */
export async function renewSession(
  tx: Tx,
  { accountId, sessionId }: Pick<Account, 'accountId' | 'sessionId'>,
  more: { readonly secondFactorAt?: Date } = {},
): Promise<Session> {
  const token = newToken();
  const data = { tokenHash: hashOf(token), ...more };
  const { count } = await tx.session.updateMany({ where: { id: sessionId, accountId }, data });
  if (count !== 1) throw new DomainError('access.sign-in');
  const { expiresAt } = await tx.session.findUniqueOrThrow({ where: { id: sessionId } });
  return shown(token, expiresAt);
}

const shown = (token: string, expiresAt: Date): Session => ({
  token,
  expiresAt: expiresAt.toISOString(),
  csrf: csrfOf(token),
});
