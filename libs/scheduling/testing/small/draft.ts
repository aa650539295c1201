import type { Random } from '#kernel/random.ts';
import type { Activity, Interval, LagFunction, Mode, Problem } from '../../model/problem.ts';
import { between, range } from '../draw.ts';
import type { Feature } from './features.ts';

type Lists<T> = { [K in keyof T]: T[K] extends readonly (infer E)[] ? E[] : T[K] };

/** A problem while it is made: its lists grow, its records are replaced. */
export interface Draft {
  readonly rng: Random;
  readonly day: number;
  readonly days: number;
  /** Whether a feature is asked of this problem; it may still find no place. */
  wants(feature: Feature): boolean;
  readonly problem: Lists<Omit<Problem, 'tolerances' | 'skills'>>;
}

/** Replaces an activity by what `change` makes of it. */
export function amend(draft: Draft, index: number, change: (one: Activity) => Activity): void {
  const { activities } = draft.problem;
  activities[index] = change(activities[index]);
}

export function amendModes(draft: Draft, index: number, change: (mode: Mode) => Mode): void {
  amend(draft, index, (one) => ({ ...one, modes: one.modes.map(change) }));
}

/** Adds an activity; its index. */
export function add(draft: Draft, id: string, given: Omit<Activity, 'id' | 'source'>): number {
  const { activities } = draft.problem;
  activities.push({
    ...given,
    id: `${id}-${activities.length}`,
    source: `task-${activities.length}`,
  });
  return activities.length - 1;
}

/** Some disjoint spans within the horizon, sorted, none touching the next. */
export function spans(draft: Draft, count: number, least: number, most: number): Interval[] {
  const { rng, problem } = draft;
  const found: Interval[] = [];
  const room = Math.floor(problem.horizon / count);
  for (let k = 0; k < count; k += 1) {
    const length = Math.min(room - 1, between(rng, least, most));
    const start = k * room + between(rng, 0, Math.max(0, room - length - 1));
    if (length > 0) found.push({ start, end: start + length });
  }
  return found;
}

/**
 * A lag of at least `wait` minutes: a constant, or a table, of steps or of lines, that is slower in
 * the second half of each day (a cold night), capped at never.
 */
function lagFunction(draft: Draft, wait: number): LagFunction {
  const { rng, problem, day } = draft;
  if (!draft.wants('table-lag') || rng.below(2) === 0) return { kind: 'constant', minutes: wait };
  const grid = between(rng, 1, 4);
  const slower = between(rng, 1, 4);
  const minutes = range(Math.ceil(problem.horizon / grid) + 1).map((k) => k * grid);
  const values: number[] = [];
  for (const at of minutes) {
    const value = at + wait + (at % day >= day / 2 ? slower : 0);
    values.push(Math.min(problem.horizon + 1, Math.max(values.at(-1) ?? 0, value)));
  }
  const number = String(problem.tables.length);
  problem.tables.push({
    id: `table-${number}`,
    ...((grid + slower) % 2 === 0 ? { grid } : { at: minutes }),
    values,
    source: `curve-${number}`,
  });
  return { kind: 'table', table: problem.tables.length - 1 };
}

/** A function of an activity's anchor, or one for each of its modes where that is asked. */
export function lagFunctions(draft: Draft, activity: number, minutes: number): LagFunction[] {
  const { modes } = draft.problem.activities[activity];
  const each = draft.wants('lag-by-mode') && modes.length > 1 && draft.rng.below(4) > 0;
  return (each ? modes : [0]).map(() =>
    lagFunction(draft, minutes + (each ? draft.rng.below(4) : 0)),
  );
}
