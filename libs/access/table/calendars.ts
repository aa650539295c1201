import { members, type May, row, type Rule } from '../rule.ts';

/** The foreman reaches all of the yard's, everybody else the own ones. */
const holders = { foreman: 'all', builder: 'own', owner: 'own' } as const satisfies May;

/** Addresses of calendar feeds; whoever has one reads it without signing in, until it is revoked. */
export const calendars: readonly Rule[] = [
  row(
    'calendars.list',
    ['GET yards/{yardId}/calendars', 'Query.calendars'],
    holders,
    'yard',
    'read',
  ),
  row(
    'calendars.create',
    ['POST yards/{yardId}/calendars', 'Mutation.createCalendar'],
    members,
    'yard',
    null,
  ),
  row(
    'calendars.revoke',
    ['DELETE yards/{yardId}/calendars/{id}', 'Mutation.revokeCalendar'],
    holders,
    'calendar',
    null,
  ),
  row('calendars.read', ['GET calendars/{secret}.ics'], 'anyone', 'service', null),
];
