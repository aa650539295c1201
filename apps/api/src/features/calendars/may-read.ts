import type { Role } from '#planning/yard/people.ts';
import type { CalendarKind } from './calendars.contract.ts';

/** Of which roles one has to be for a calendar of a kind, and how that is said. */
const needed: Readonly<Record<CalendarKind, { readonly roles: readonly Role[]; words: string }>> = {
  builder: { roles: ['builder'], words: 'a builder' },
  owner: { roles: ['owner'], words: 'an owner' },
  space: { roles: ['foreman', 'builder'], words: 'a foreman or builder' },
};

/** Null where somebody of these roles may read it; else what they would have to be. */
export function lacksRole(kind: CalendarKind, roles: readonly Role[]): string | null {
  const { roles: any, words } = needed[kind];
  return any.some((role) => roles.includes(role)) ? null : words;
}
