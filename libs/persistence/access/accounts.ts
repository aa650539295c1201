import { DomainError } from '#kernel/error.ts';
import type { Transaction } from '../client.ts';
import { refusalOf } from '../refusal.ts';
import { revokeKeysOf } from './lookups.ts';
import { hashOf, newToken } from './token.ts';

/** How long a link for setting a password can be used (OWASP, Forgot Password Cheat Sheet: briefly, once). */
export const resetMinutes = 60;

/** What to enter a transaction of the account `id` with, and then to call this in it. */
export interface NewAccount {
  readonly id: string;
  readonly email: string;
  readonly name: string;
}

/** An account that cannot sign in until a link has set its password. Throws `record.exists`. */
export async function addAccount(tx: Transaction, { id, email, name }: NewAccount): Promise<void> {
  try {
    await tx.account.create({ data: { id, email: email.toLowerCase(), name } });
  } catch (error) {
    if (refusalOf(error)?.kind !== 'unique') throw error;
    throw new DomainError('record.exists', `There is an account "${email}" already.`, {
      cure: 'Make a link for it, or use another e-mail.',
    });
  }
}

/** A new link, in a transaction of the account: its token, known to nobody else. */
export async function openPasswordReset(tx: Transaction, accountId: string): Promise<string> {
  const token = newToken();
  const expiresAt = new Date(Date.now() + resetMinutes * 60_000);
  const tokenHash = hashOf(token);
  await tx.passwordReset.create({ data: { tokenHash, accountId, expiresAt } });
  return token;
}

/**
 * Ends what was begun with the account's old secrets: sessions (but for the one to `keep`), sign-ins
 * half done, links. Returns how many sessions there were.
 */
export async function endAccess(
  tx: Transaction,
  accountId: string,
  keep?: string,
): Promise<number> {
  const others = keep === undefined ? {} : { id: { not: keep } };
  // First: the sign-in that is just using one up opens its session before this goes on, or not at all.
  await tx.pendingSignIn.deleteMany({ where: { accountId } });
  const { count } = await tx.session.deleteMany({ where: { accountId, ...others } });
  await tx.passwordReset.deleteMany({ where: { accountId, usedAt: null } });
  return count;
}

/** What there was that somebody could still come in with. */
export interface Ended {
  readonly sessions: number;
  readonly programKeys: number;
}

/** The same, and the program keys: for somebody who may have been in the account without being its owner. */
export async function endAllAccess(tx: Transaction, accountId: string): Promise<Ended> {
  const sessions = await endAccess(tx, accountId);
  return { sessions, programKeys: await revokeKeysOf(tx, accountId) };
}

/** What was set up beside the password. */
export interface Factors {
  readonly authenticators: number;
  readonly recoveryCodes: number;
  readonly passkeys: number;
}

/** Takes every second factor and passkey off the account, for somebody who has lost theirs. */
export async function dropFactors(tx: Transaction, accountId: string): Promise<Factors> {
  const where = { accountId };
  const { count: authenticators } = await tx.totp.deleteMany({ where });
  const { count: recoveryCodes } = await tx.recoveryCode.deleteMany({ where });
  const { count: passkeys } = await tx.passkey.deleteMany({ where });
  return { authenticators, recoveryCodes, passkeys };
}
