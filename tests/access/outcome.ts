import type { Rule, Scope, Subject } from '#access/rule.ts';
import type { Role } from '#planning/yard/people.ts';

export type Outcome = 'unauthenticated' | 'forbidden' | 'not-found' | 'let in';

/** Who calls, as far as the table asks. */
export interface Caller {
  /** False: without a session or key. */
  readonly isKnown: boolean;
  /** The yard that the caller belongs to, and as what; null: to none. */
  readonly member: { readonly yardId: string; readonly roles: readonly Role[] } | null;
  /** Of a program key; null: signed in. */
  readonly scopes: readonly Scope[] | null;
  /** The yard asks for a second factor, which the session has not. */
  readonly lacksFactor: boolean;
}

/**
 * Which record a call names: the caller's own, one of the same yard that belongs to somebody
 * else, one of another yard (or account), none that exists; or no record.
 */
export type Named = 'own' | 'neighbour’s' | 'other’s' | 'missing' | 'nothing';

export interface Target {
  /** Null: the call names no yard. */
  readonly yardId: string | null;
  readonly record: Named;
}

const reach: Record<Scope, number> = { read: 0, work: 1, manage: 2 };

/**
 * What the table says of a call. Another yard comes before everything else but the sign-in, so
 * that nothing about it can be told from the answer: neither that it is there nor what it asks for.
 */
export function outcome(rule: Rule, caller: Caller, { yardId, record }: Target): Outcome {
  const { may, scope } = rule;
  if (may === 'anyone') return 'let in';
  if (!caller.isKnown) return 'unauthenticated';
  if (may === 'signed-in') {
    if (caller.scopes) return 'forbidden';
    return record === 'other’s' || record === 'missing' ? 'not-found' : 'let in';
  }
  const { member } = caller;
  if (!member || member.yardId !== yardId) return 'not-found';
  if (caller.lacksFactor) return 'forbidden';
  if (caller.scopes && !reaches(caller.scopes, scope)) return 'forbidden';
  const whose = member.roles.flatMap((role) => may[role] ?? []);
  if (whose.length === 0) return 'forbidden';
  if (record === 'other’s' || record === 'missing') return 'not-found';
  return record === 'neighbour’s' && !whose.includes('all') ? 'not-found' : 'let in';
}

const reaches = (held: readonly Scope[], needed: Scope | null): boolean =>
  needed !== null && held.some((scope) => reach[scope] >= reach[needed]);

/** What has an owner among the yard's people: the others' are not found by somebody who reaches only the own. */
export const owned: ReadonlySet<Subject> = new Set([
  'boat',
  'refit',
  'part',
  'job',
  'task',
  'snag',
  'photo',
  'change',
  'calendar',
]);

/** Records that are no yard's: there is no other's of them. */
export const everyones: ReadonlySet<Subject> = new Set(['class']);
