import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { type SignInAccount, signInAccount } from '#persistence/access/lookups.ts';
import type { Origin } from '../../platform/access/origin.ts';
import { hashPassword, isWeaker, passwordMatches } from '../../platform/access/password.ts';
import type { SignedIn } from '../../platform/access/session-shape.ts';
import { Sessions } from '../../platform/access/sessions.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { SignInLimits } from '../../platform/limits/sign-in-limits.ts';
import type { SignIn } from './session.contract.ts';

@Injectable()
export class SessionService {
  constructor(
    private readonly database: Database,
    private readonly sessions: Sessions,
    private readonly limits: SignInLimits,
  ) {}

  /**
   * Whoever has a second factor gets no session yet, and the attempt counts until its code was
   * right: whoever knows the password could else guess codes for ever.
   */
  async signIn({ email, password }: SignIn, { address, agent }: Origin): Promise<SignedIn> {
    await this.limits.attempt(email, address);
    const account = await this.database.lookUp((db) => signInAccount(db, email));
    const stored = account?.passwordHash ?? null;
    const matches = await passwordMatches(stored, password);
    if (account === null || stored === null || !matches)
      throw new DomainError('access.credentials');

    const current = await this.#hashedAsToday(account, stored, password);
    const { accountId } = account;
    const stillSo = (tx: Tx): Promise<void> => assertStill(tx, accountId, current);
    if (account.hasTotp) {
      return { pending: await this.sessions.openPending(accountId, agent, stillSo) };
    }
    const how = { agent, secondFactor: false };
    const session = await this.sessions.open(accountId, how, async (tx) => {
      await stillSo(tx);
      await assertNoTotp(tx, accountId);
    });
    await this.limits.succeeded(email, address);
    return session;
  }

  signOut(account: Account): Promise<void> {
    return this.sessions.close(account);
  }

  /** The password is known only now: where its hash was made at a lower cost it is made anew. */
  async #hashedAsToday(
    { accountId }: SignInAccount,
    stored: string,
    password: string,
  ): Promise<string> {
    if (!isWeaker(stored)) return stored;
    const passwordHash = await hashPassword(password);
    const { count } = await this.database.asAccount(accountId, (tx) =>
      tx.account.updateMany({
        where: { id: accountId, passwordHash: stored },
        data: { passwordHash },
      }),
    );
    return count === 1 ? passwordHash : stored;
  }
}

/**
 * Locks the account's row until the session is there: whoever changes the password meanwhile waits,
 * and then closes this session with the others.
 */
async function assertStill(tx: Tx, accountId: string, passwordHash: string): Promise<void> {
  const same = await tx.$queryRaw<unknown[]>`
    SELECT 1 FROM account WHERE id = ${accountId}::uuid AND password_hash = ${passwordHash} FOR SHARE`;
  if (same.length === 0) throw new DomainError('access.credentials');
}

/** After `assertStill`, whose lock whoever switches codes on waits for, or has made it wait. */
async function assertNoTotp(tx: Tx, accountId: string): Promise<void> {
  const where = { accountId, confirmedAt: { not: null } };
  if ((await tx.totp.count({ where })) === 0) return;
  throw new DomainError('access.sign-in', 'One-time codes were switched on just now.', {
    cure: 'Sign in again, with a code.',
  });
}
