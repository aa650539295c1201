import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { pendingSignInOf } from '#persistence/access/lookups.ts';
import { hashOf } from '#persistence/access/token.ts';
import type { Origin } from '../../platform/access/origin.ts';
import type { Session } from '../../platform/access/session-shape.ts';
import { renewSession, Sessions } from '../../platform/access/sessions.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { SignInLimits } from '../../platform/limits/sign-in-limits.ts';
import { type CodeKind, FactorCodes } from './factor-codes.ts';
import { FactorNotices } from './notices.service.ts';
import type { CodeSignInInput, SecondFactorCodeInput } from './second-factor.contract.ts';

/** A code where one is asked for: at the second step of signing in, and in a session. */
@Injectable()
export class CodeSignInService {
  constructor(
    private readonly database: Database,
    private readonly codes: FactorCodes,
    private readonly sessions: Sessions,
    private readonly limits: SignInLimits,
    private readonly notices: FactorNotices,
  ) {}

  /** Ends a sign-in that the password began; that may be tried five times, within five minutes. */
  async signIn({ pending, code }: CodeSignInInput, { address }: Origin): Promise<Session> {
    const tokenHash = hashOf(pending);
    const begun = await this.database.lookUp((tx) => pendingSignInOf(tx, tokenHash));
    if (!begun) throw runOut();
    const { accountId, agent } = begun;
    const spent = await this.codes.spend(accountId, code, address, (tx, kind) =>
      spentOf(tx, accountId, kind),
    );
    const session = await this.sessions.open(accountId, { agent, secondFactor: true }, (tx) =>
      assertStillBegun(tx, accountId, tokenHash),
    );
    // The password's attempt counted until now: it was half of a sign-in.
    await this.limits.succeeded(spent.email, address);
    this.#tell(spent);
    return session;
  }

  /** The session goes on as one with a second factor, under a new token. */
  async stepUp(
    account: Account,
    { code }: SecondFactorCodeInput,
    { address }: Origin,
  ): Promise<Session> {
    const { accountId } = account;
    const { spent, session } = await this.codes.spend(
      accountId,
      code,
      address,
      async (tx, kind) => ({
        spent: await spentOf(tx, accountId, kind),
        session: await renewSession(tx, account, { secondFactorAt: new Date() }),
      }),
    );
    this.#tell(spent);
    return session;
  }

  #tell({ kind, email, left }: Spent): void {
    if (kind === 'totp') return;
    this.notices.send(email, 'recovery-used', `${String(left)} of them are left.`);
  }
}

/**
 * Locks the account's row until the session is there: a password that is changed meanwhile ends the
 * sign-ins that the old one began, and the sessions that came of them.
 */
async function assertStillBegun(
  tx: Tx,
  accountId: string,
  tokenHash: Uint8Array<ArrayBuffer>,
): Promise<void> {
  await tx.$queryRaw`SELECT 1 FROM account WHERE id = ${accountId}::uuid FOR SHARE`;
  const { count } = await tx.pendingSignIn.deleteMany({ where: { tokenHash, accountId } });
  if (count !== 1) throw runOut();
}

const runOut = (): DomainError =>
  new DomainError('access.sign-in', 'This sign-in has run out, or was never begun.', {
    cure: 'Begin again with your e-mail and password.',
  });

interface Spent {
  readonly kind: CodeKind;
  readonly email: string;
  /** Recovery codes. */
  readonly left: number;
}

async function spentOf(tx: Tx, accountId: string, kind: CodeKind): Promise<Spent> {
  const { email } = await tx.account.findUniqueOrThrow({
    where: { id: accountId },
    select: { email: true },
  });
  const left = await tx.recoveryCode.count({ where: { accountId, usedAt: null } });
  return { kind, email, left };
}
