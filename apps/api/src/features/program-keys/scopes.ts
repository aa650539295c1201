import type { Scope } from '#access/rule.ts';
import { table } from '#access/table.ts';
import type { Role } from '#planning/yard/people.ts';

/** Those with which somebody of these roles could do anything at all, by the table of operations. */
export function scopesOf(roles: readonly Role[]): ReadonlySet<Scope> {
  const given = table.flatMap(({ may, scope }) =>
    scope !== null && typeof may === 'object' && roles.some((role) => role in may) ? [scope] : [],
  );
  return new Set(given);
}
