import type { Schema } from '../api/client.ts';
import type { Tried, Wish } from './try-placement.ts';

type Task = Pick<Schema<'Task'>, 'fixedStart' | 'crew' | 'after'>;

/** What the foreman sets of a task; null and nobody: whatever is best. */
export interface Setting {
  readonly start: string | null;
  readonly crew: readonly string[];
  readonly after: readonly string[];
}

export const settingOf = ({ fixedStart, crew, after }: Task): Setting => ({
  start: fixedStart,
  crew: crew.map(({ id }) => id),
  after,
});

export const withTrial = (setting: Setting, { start, crew }: Wish): Setting => ({
  ...setting,
  start: start ?? setting.start,
  crew: crew ?? setting.crew,
});

/** What of it can be tried; null where nothing is set. */
export function wishOf({ start, crew }: Setting): Wish | null {
  if (start === null && crew.length === 0) return null;
  return { ...(start === null ? {} : { start }), ...(crew.length === 0 ? {} : { crew }) };
}

/** Work begins when somebody works: the moment that was found, where the wish was tried. */
export function startOf({ start }: Setting, tried: Tried | undefined): string | null {
  if (start === null || tried === undefined) return start;
  return Date.parse(tried.start.at) > Date.parse(start) ? tried.start.at : start;
}

const sameSet = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((one) => b.includes(one));

/** What is to be sent: the differences. */
export function changesOf(task: Task, { start, crew, after }: Setting): Schema<'TaskPatch'> {
  const now = settingOf(task);
  const isSameStart =
    start === now.start ||
    (start !== null && now.start !== null && Date.parse(start) === Date.parse(now.start));
  return {
    ...(isSameStart ? {} : { fixedStart: start }),
    ...(sameSet(crew, now.crew) ? {} : { crew: [...crew] }),
    ...(sameSet(after, now.after) ? {} : { after: [...after] }),
  };
}
