import type { Membership } from '../../session/session.ts';

/**
 * The page of a yard that answers somebody's question: the foreman's week, the builder's now, the
 * owner's boat. A foreman without any plan is still setting up; one who is everything there is
 * asks what to do next, as a builder does.
 */
export function pageFor(
  { yardId, roles }: Pick<Membership, 'yardId' | 'roles'>,
  hasPlan: boolean,
): string {
  const is = (role: Membership['roles'][number]): boolean => roles.includes(role);
  const page = is('foreman')
    ? !hasPlan
      ? 'set-up'
      : is('builder') && is('owner')
        ? 'now'
        : 'week'
    : is('builder')
      ? 'now'
      : 'my-boat';
  return `/yards/${yardId}/${page}`;
}
