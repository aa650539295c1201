import { latestOpened } from '../model/lag-inverse.ts';
import { earliestAlone, latestAlone, type Fit } from '../bounds/solo.ts';
import { functionFor, lagAt } from '../model/lag.ts';
import type { Obstacle } from '../model/plan.ts';
import { shapeAt, type Located, type LocatedPlan } from './located.ts';
import { anchorAt } from './obstacles/lags.ts';
import { othersAt } from './obstacles/at.ts';

/** Where a walk through causes is: an activity, a start earlier than planned to ask about, and whom not to blame. */
export interface Place {
  readonly activity: number;
  /** Null: the latest earlier start that its own moments permit. */
  readonly start: number | null;
  /** Activities that would move along, since a window ties them to this one. */
  readonly tied: ReadonlySet<number>;
}

/** The latest start no later than `start` that its hours, slot and forbidden moments permit; -1 if none. */
export const permitted = ({ problem }: LocatedPlan, { solo }: Located, start: number): number =>
  start < 0 ? -1 : latestAlone(solo, start, problem.horizon);

/** The follow-up whose window, not its own start, keeps `one` from starting at `start`, and where to ask it. */
export function followUp(
  located: LocatedPlan,
  one: Located,
  start: number,
  cause: Obstacle,
  tied: ReadonlySet<number>,
): Place | null {
  const { problem } = located;
  const a = one.placement.activity;
  const other = cause.from === null ? undefined : located.at[cause.from];
  if (!other || cause.reason.kind !== 'lag') return null;
  const lag = problem.lags[cause.reason.lag];
  if (lag.bound !== 'close' || lag.from !== a) return null;
  const then = { ...one, shape: shapeAt(one, start) };
  const close = lagAt(problem, lag, one.placement.mode, anchorAt(then, lag.fromAnchor));
  const latest = permitted(located, other, Math.min(close, other.placement.start - 1));
  return { activity: other.placement.activity, start: latest, tied: new Set([...tied, a]) };
}

/** The tied activities, and those that wait for one of them: none of these is to blame for where they are. */
export function movingAlong(located: LocatedPlan, tied: ReadonlySet<number>): ReadonlySet<number> {
  const along = new Set(tied);
  for (const a of tied)
    for (const l of located.outgoing[a])
      if (located.problem.lags[l].bound === 'open') along.add(located.problem.lags[l].to);
  return along;
}

/** A start from which the follow-up is reached at its own latest start. */
export interface Along {
  readonly start: number;
  readonly followUp: number;
}

/**
 * The latest start before `start` from which the follow-ups that its windows tie to it are
 * reached at their own latest starts; null where there is none to go along with.
 */
export function alongWith(located: LocatedPlan, one: Located, start: number): Along | null {
  const { problem } = located;
  const { placement, solo } = one;
  const length = placement.finish - placement.start;
  let latest = start;
  let last = -1;
  const lower = (s: number, other: number): void => {
    if (s >= latest) return;
    latest = s;
    last = other;
  };
  for (const obstacle of othersAt(located, one, start)) {
    const tie = followUp(located, one, start, obstacle, new Set());
    const other = tie === null ? undefined : located.at[tie.activity];
    if (!tie || !other || tie.start === null) continue;
    const then = { ...other, shape: shapeAt(other, tie.start) };
    const openings = located.outgoing[placement.activity]
      .map((l) => problem.lags[l])
      .filter((lag) => lag.bound === 'open' && lag.to === tie.activity);
    // Without an opening of its own it still comes after: what lies between sees to that.
    if (openings.length === 0) lower(tie.start - length, tie.activity);
    for (const lag of openings) {
      const fn = functionFor(lag.fns, placement.mode);
      const anchor = latestOpened(problem, fn, anchorAt(then, lag.toAnchor));
      lower(lag.fromAnchor === 'finish' ? anchor - length : anchor, tie.activity);
    }
  }
  if (last < 0) return null;
  const s = latest < 0 ? -1 : latestAlone(solo, latest, problem.horizon);
  return { start: s, followUp: last };
}

const fit: Fit = { start: 0, finish: 0 };

/** The moment to which its hours alone put off an activity that could go ahead at `from`; null where they do not. */
export function putOffTo({ problem }: LocatedPlan, one: Located, from: number): number | null {
  const free = { ...one.solo, startHoles: null, finishHoles: null, slots: null };
  if (!earliestAlone(problem, free, from, fit)) return null;
  return fit.start > from && fit.start <= one.placement.start ? fit.start : null;
}
