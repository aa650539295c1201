import type { Role } from '#planning/yard/people.ts';
import { type May, type Scope, scopes, type Whose } from './rule.ts';

/** Whose records a row gives to somebody of these roles; null: none, they may not. */
export function whoseOf(may: Exclude<May, string>, held: readonly Role[]): Whose | null {
  const given = held.map((role) => may[role]);
  if (given.includes('all')) return 'all';
  return given.includes('own') ? 'own' : null;
}

/** Whether a program key with these scopes may do what needs `needed`. */
export function reaches(held: readonly Scope[], needed: Scope | null): boolean {
  if (needed === null) return false;
  return held.some((scope) => scopes.indexOf(scope) >= scopes.indexOf(needed));
}
