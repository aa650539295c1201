import { DomainError } from '#kernel/error.ts';
import type { Account } from '../../platform/access/viewer.ts';
import type { Tx } from '../../platform/database/database.ts';
import { newRecoveryCodes, recoveryHash } from './recovery-codes.ts';

export interface Factors {
  /** Null: one-time codes are off. */
  readonly totpSince: Date | null;
  readonly recoveryCodesLeft: number;
  readonly passkeys: number;
  /** When one was shown in the session that asks; null: never. */
  readonly shownAt: Date | null;
}

export async function factorsOf(
  tx: Tx,
  { accountId, sessionId }: Pick<Account, 'accountId' | 'sessionId'>,
): Promise<Factors> {
  const totp = await tx.totp.findUnique({ where: { accountId }, select: { confirmedAt: true } });
  const recoveryCodesLeft = await tx.recoveryCode.count({ where: { accountId, usedAt: null } });
  const passkeys = await tx.passkey.count({ where: { accountId } });
  const session = await tx.session.findFirst({
    where: { id: sessionId, accountId },
    select: { secondFactorAt: true },
  });
  return {
    totpSince: totp?.confirmedAt ?? null,
    recoveryCodesLeft,
    passkeys,
    shownAt: session?.secondFactorAt ?? null,
  };
}

/**
 * A second factor is added or taken away only where one that there is has been shown: whoever has
 * the password alone could else replace it by one of their own.
 */
export function assertMayChange({ totpSince, passkeys, shownAt }: Factors): void {
  if (shownAt || (!totpSince && passkeys === 0)) return;
  throw new DomainError(
    'access.second-factor',
    'Your account has a second factor, which this session has not shown.',
    { cure: 'Show a code in this session, or sign in with your passkey; then repeat it.' },
  );
}

/** Whoever has no second factor left is in no session with one: a yard may ask for it. */
export async function settleSessions(tx: Tx, accountId: string): Promise<void> {
  const totp = await tx.totp.count({ where: { accountId, confirmedAt: { not: null } } });
  const passkeys = await tx.passkey.count({ where: { accountId } });
  if (totp + passkeys > 0) return;
  await tx.session.updateMany({ where: { accountId }, data: { secondFactorAt: null } });
}

/** Closes the account's other sessions that have shown no second factor; how many. */
export async function closeUnshown(
  tx: Tx,
  { accountId, sessionId }: Pick<Account, 'accountId' | 'sessionId'>,
): Promise<number> {
  // A sign-in with the password that is under way has its session by then, or finds codes switched on.
  await tx.$queryRaw`SELECT 1 FROM account WHERE id = ${accountId}::uuid FOR UPDATE`;
  const where = { accountId, secondFactorAt: null, id: { not: sessionId } };
  return (await tx.session.deleteMany({ where })).count;
}

/** Ten in place of those before; the only time that they can be read. */
export async function freshRecoveryCodes(tx: Tx, accountId: string): Promise<string[]> {
  const codes = newRecoveryCodes();
  const rows = codes.flatMap((code) => {
    const codeHash = recoveryHash(code);
    return codeHash ? [{ accountId, codeHash }] : [];
  });
  await tx.recoveryCode.deleteMany({ where: { accountId } });
  await tx.recoveryCode.createMany({ data: rows });
  return codes;
}
