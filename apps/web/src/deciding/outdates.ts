import type { YardEvent } from '../api/live.ts';

const subjects: ReadonlySet<string> = new Set(['change', 'part', 'refit', 'boat', 'job']);

/** Whether an event may make another price of what was priced: there may be other work than before. */
export const mayOutdate = ({ subject, kind }: YardEvent): boolean =>
  subjects.has(subject) || kind.startsWith('rework-');
