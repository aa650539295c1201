import type { Event } from '#persistence/generated/client.ts';
import type { Viewer } from '../../platform/access/viewer.ts';

/** A row of the yard's log. */
export type LoggedEvent = Event;

/** What only those see who run the yard: drafts of plans, and people's records. */
const foremanOnly: ReadonlySet<string> = new Set(['plan-run', 'candidate', 'person']);

export function maySee({ roles }: Pick<Viewer, 'roles'>, { subject }: LoggedEvent): boolean {
  if (roles.includes('foreman')) return true;
  return roles.includes('builder') && !foremanOnly.has(subject);
}
