import { DomainError } from '#kernel/error.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import type { Change } from './changes.contract.ts';
import type { ChangeRow } from './changes.store.ts';

/** Nobody has decided. */
export function assertOpen({ state }: Pick<ChangeRow, 'state'>): void {
  if (state === 'asked' || state === 'priced') return;
  throw new DomainError('change.state', `The change is ${state} already.`);
}

/**
 * What is done on a boat is its owner's to say; the foreman says it where no owner has an account, and
 * declines what an owner asked for.
 */
export function assertDecides(
  viewer: Viewer,
  { decides, boat }: Pick<Change, 'decides' | 'boat'>,
  row: ChangeRow,
  deed: 'accept' | 'decline',
): void {
  const { ownerId } = row.refit.boat;
  if (decides === 'owner' && ownerId === viewer.memberId) return;
  const isForeman = viewer.roles.includes('foreman');
  if (decides === 'foreman' && isForeman) return;
  if (deed === 'decline' && isForeman && row.raisedById === ownerId) return;
  throw new DomainError('change.state', `The owner of ${boat} says yes or no to this.`, {
    cure: 'Wait for their word, or withdraw what the yard asked for.',
  });
}

/** Whoever asked takes it back; the foreman also for others of the yard. */
export function assertWithdraws(viewer: Viewer, row: ChangeRow): void {
  const { ownerId } = row.refit.boat;
  if (row.raisedById === viewer.memberId) return;
  if (viewer.roles.includes('foreman') && row.raisedById !== ownerId) return;
  throw new DomainError('change.state', 'Somebody else asked for this.', {
    cure: 'Decline it, or let whoever asked withdraw it.',
  });
}
