import { DomainError } from '#kernel/error.ts';
import { heldMembership } from '#persistence/access/lookups.ts';
import type { Role } from '#planning/yard/people.ts';
import type { Tx } from '../database/database.ts';

/**
 * To be called first by what hands out a way in, a key or a link: the guard looked before the
 * transaction began, and whoever has ended the caller's access since has not seen it. From here on
 * they wait, and then find it. The roles that the caller has now; throws what the guard would.
 */
export async function holdMembership(tx: Tx, sessionId: string | null): Promise<readonly Role[]> {
  const held = await heldMembership(tx, sessionId);
  if (!held) throw new DomainError('access.sign-in');
  const { roles, lacksSecondFactor } = held;
  if (roles === null) throw new DomainError('record.missing', 'There is no such yard.');
  if (lacksSecondFactor) throw new DomainError('access.second-factor');
  return roles;
}
