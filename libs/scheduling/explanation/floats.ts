import { latestOpened } from '../model/lag-inverse.ts';
import { endIn, latestAlone } from '../bounds/solo.ts';
import { functionFor, lagAt } from '../model/lag.ts';
import type { Plan } from '../model/plan.ts';
import type { Anchor, Problem } from '../model/problem.ts';
import { locate, shapeAt, type Located, type LocatedPlan } from './located.ts';
import { anchorAt } from './obstacles/lags.ts';
import { keepAir } from './orders/air.ts';
import { placedOf, type KeptOrders } from './orders/kept.ts';
import { keepParts, keepPeople } from './orders/people.ts';
import { keepSupplies, latestByCapacity } from './orders/supplies.ts';

function keptOrders(located: LocatedPlan): KeptOrders {
  const kept: KeptOrders = { pairs: [], woven: new Set() };
  keepPeople(located, kept);
  keepParts(located, kept);
  keepSupplies(located, kept);
  keepAir(located, kept);
  return kept;
}

/** Whether lags of the activity to itself hold for a start. */
function ownHold({ problem, outgoing }: LocatedPlan, one: Located, start: number): boolean {
  const then = { ...one, shape: shapeAt(one, start) };
  const { activity: a, mode } = one.placement;
  return outgoing[a].every((l) => {
    const lag = problem.lags[l];
    if (lag.to !== a) return true;
    const bound = lagAt(problem, lag, mode, anchorAt(then, lag.fromAnchor));
    const moment = anchorAt(then, lag.toAnchor);
    return lag.bound === 'open' ? moment >= bound : moment <= bound;
  });
}

/** The latest start not above `start` whose finish is not above `finish`, own lags and hours holding. */
function latestStart(located: LocatedPlan, one: Located, start: number, finish: number): number {
  const planned = one.placement.start;
  let s = Math.min(start, finish);
  for (;;) {
    s = s <= planned ? -1 : latestAlone(one.solo, s, finish);
    if (s <= planned) return planned;
    if (ownHold(located, one, s)) return s;
    s -= 1;
  }
}

const isHeld = ({ activity, frozen }: Located): boolean =>
  frozen || (activity.fixed?.start ?? activity.fixed?.finish ?? null) !== null;

/**
 * For each activity, the minutes by which it can start later than planned with every order of
 * the plan, its crews, modes, slots and branches kept, no refit finishing later; null where absent.
 *
 * The latest starts are the greatest fixed point of bounds that all grow with the starts they
 * depend on (lags, kept orders, hours), so that all activities at their latest are a plan too:
 * the floats are exact for the orders kept. They are conservative for what has none, because it is
 * frozen, set to a moment, an act on a barrier, or woven into another's pauses, holds or air
 * (see `KeptOrders`).
 */
export function floats(problem: Problem, plan: Plan): (number | null)[] {
  const located = locate(problem, plan);
  const { pairs, woven } = keptOrders(located);
  const n = problem.activities.length;
  const start = new Float64Array(n);
  const finish = new Float64Array(n);
  const startTo = new Float64Array(n).fill(Infinity);
  const finishTo = new Float64Array(n).fill(Infinity);
  const bounding: number[][] = problem.activities.map(() => []);
  pairs.forEach(({ after }, k) => bounding[after].push(k));
  const queued = new Uint8Array(n);
  const queue: number[] = [];
  for (const one of placedOf(located)) {
    const { activity: a, start: planned, finish: ends } = one.placement;
    const { refit } = one.activity;
    finishTo[a] = Math.min(
      refit === null ? Infinity : plan.finishes[refit],
      problem.horizon - (one.shape.freed - one.shape.end),
      latestByCapacity(located, one),
    );
    startTo[a] = finishTo[a];
    start[a] = isHeld(one) || woven.has(a) ? planned : Infinity;
    finish[a] = ends;
    queue.push(a);
    queued[a] = 1;
  }
  queue.sort(
    (a, b) =>
      (located.at[b]?.placement.finish ?? 0) - (located.at[a]?.placement.finish ?? 0) || b - a,
  );
  const bound = (a: number, anchor: Anchor, value: number): void => {
    const to = anchor === 'finish' ? finishTo : startTo;
    if (value >= to[a]) return;
    to[a] = value;
    if (queued[a] === 1) return;
    queued[a] = 1;
    queue.push(a);
  };
  for (let head = 0; head < queue.length; head += 1) {
    const a = queue[head];
    const one = located.at[a];
    queued[a] = 0;
    if (!one) continue;
    const { start: planned, finish: ends, mode } = one.placement;
    if (start[a] !== planned) {
      const s = latestStart(located, one, startTo[a], finishTo[a]);
      if (s === start[a]) continue;
      start[a] = s;
      finish[a] = s === planned ? ends : endIn(one.solo.pausing, s, one.solo.minutes);
    }
    const at = (anchor: Anchor): number => (anchor === 'finish' ? finish[a] : start[a]);
    // An opening bounds its earlier end by its later one; a closing the other way round.
    for (const l of located.incoming[a]) {
      const lag = problem.lags[l];
      const from = located.at[lag.from];
      if (!from || lag.bound === 'close' || lag.from === a) continue;
      const fn = functionFor(lag.fns, from.placement.mode);
      bound(lag.from, lag.fromAnchor, latestOpened(problem, fn, at(lag.toAnchor)));
    }
    for (const l of located.outgoing[a]) {
      const lag = problem.lags[l];
      if (lag.bound === 'open' || lag.to === a) continue;
      bound(lag.to, lag.toAnchor, lagAt(problem, lag, mode, at(lag.fromAnchor)));
    }
    for (const k of bounding[a]) bound(pairs[k].before, pairs[k].anchor, pairs[k].latest(start[a]));
  }
  return located.at.map((one, a) => (one ? start[a] - one.placement.start : null));
}
