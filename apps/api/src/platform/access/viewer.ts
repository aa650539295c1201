import type { Role } from '#planning/yard/people.ts';

/** Who asks, in one yard; the first argument of every service call of a yard. */
export interface Viewer {
  readonly accountId: string;
  readonly yardId: string;
  /** The person's id in the yard. */
  readonly memberId: string;
  readonly roles: readonly Role[];
}

/** Who asks, before any yard is named. */
export interface Account {
  readonly accountId: string;
  readonly email: string;
  readonly name: string;
}

/** Who a call comes from, as far as it is known. */
export interface Caller {
  readonly account?: Account;
  readonly viewer?: Viewer;
}

/** An owner who is nothing else sees the own boats only. */
export function seesOwnBoatsOnly(viewer: Viewer): boolean {
  return !viewer.roles.includes('foreman') && !viewer.roles.includes('builder');
}
