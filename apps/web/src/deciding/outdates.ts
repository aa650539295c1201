import type { YardEvent } from '../api/live.ts';

const subjects: ReadonlySet<string> = new Set(['change', 'part', 'refit', 'boat', 'job']);
/** After these a change may do something else to the work than it would have: it has begun, or not after all. */
const kinds: ReadonlySet<string> = new Set(['task-started', 'task-abandoned', 'task-undone']);

/** Whether an event may make another price of what was priced: there may be other work than before. */
export const mayOutdate = ({ subject, kind }: Pick<YardEvent, 'subject' | 'kind'>): boolean =>
  subjects.has(subject) || kinds.has(kind) || kind.startsWith('rework-');
