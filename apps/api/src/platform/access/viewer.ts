import type { Scope, Whose } from '#access/rule.ts';
import type { Role } from '#planning/yard/people.ts';

/** Who asks, in one yard; the first argument of every service call of a yard. */
export interface Viewer {
  readonly accountId: string;
  readonly yardId: string;
  /** The person's id in the yard. */
  readonly memberId: string;
  readonly roles: readonly Role[];
  /** What the second wall lets them read: an owner who is nothing else has the own boats only. */
  readonly sees: Whose;
}

/** Who asks, before any yard is named. */
export interface Account {
  readonly accountId: string;
  readonly email: string;
  readonly name: string;
  /** Of the session that the call came with: names it, opens nothing. */
  readonly sessionId: string;
}

/** Who a call comes from, as far as it is known. */
export interface Caller {
  readonly account?: Account;
  readonly viewer?: Viewer;
  /** `session`: a token in a header; `cookie`: the same in a cookie; `key`: a program's. Null: nobody. */
  readonly by: 'session' | 'cookie' | 'key' | null;
  /** Of a program key. */
  readonly keyScopes?: readonly Scope[];
}

export function seesOf(roles: readonly Role[]): Whose {
  return roles.includes('foreman') || roles.includes('builder') ? 'all' : 'own';
}

/** An owner who is nothing else sees the own boats only. */
export function seesOwnBoatsOnly({ sees }: Viewer): boolean {
  return sees === 'own';
}
