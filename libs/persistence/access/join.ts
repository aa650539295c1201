import { DomainError } from '#kernel/error.ts';
import type { Transaction } from '../client.ts';

/** Whose account a member of a yard signs in with. */
export interface Joined {
  readonly memberId: string;
  readonly accountId: string;
}

/**
 * Makes the account the member's, as the acceptance of an invitation does. Only for whoever may
 * decide that without one: the start of the demo, and tests. Throws `record.exists` where the
 * member is not there or has an account.
 */
export async function joinMember(
  tx: Transaction,
  { yardId, memberId, accountId }: Joined & { readonly yardId: string },
): Promise<void> {
  const { count } = await tx.member.updateMany({
    where: { yardId, id: memberId, accountId: null },
    data: { accountId },
  });
  if (count === 1) return;
  throw new DomainError(
    'record.exists',
    `"${memberId}" is not a person of the yard "${yardId}" who is still without an account.`,
  );
}
