import { calendarLatest } from '../bounds/latest.ts';
import type { Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { compile, type Compiled } from '../search/crew/compiled.ts';
import { calendarStart, type Fit } from '../search/crew/fit.ts';
import { anchorBound, anchorOpenBy } from '../search/crew/inverse.ts';
import { active, locate, type Located, type LocatedPlan } from './located.ts';
import { keptOrders } from './orders.ts';

const fit: Fit = { start: 0, finish: 0 };

const finishAt = (
  { compiled }: LocatedPlan,
  { mode, option, table, minutes }: Located,
  start: number,
): number => {
  const all = option !== null && mode.relieved && !mode.pauses ? option.relieved : table;
  return calendarStart(mode, all, minutes, start, compiled.horizon, fit) === start
    ? fit.finish
    : -1;
};

/** Whether lags of the activity to itself hold for this start and finish. */
const ownHold = (located: LocatedPlan, one: Located, start: number, finish: number): boolean =>
  one.activity.own.every((arc) => {
    if (!active(located, arc)) return true;
    const bound = anchorBound(located.problem, arc, arc.fromFinish ? finish : start);
    const at = arc.toFinish ? finish : start;
    return arc.open ? at >= bound : at <= bound;
  });

/**
 * The latest finish for which capacity is sure to last. Work that overlaps in the plan fitted at
 * one moment, so wherever capacity is no less than the most that the work's own span saw, it
 * fits again; where the span itself saw less than that, the work stays.
 */
function latestByCapacity({ problem }: LocatedPlan, { mode, placement }: Located): number {
  let latest = Infinity;
  for (const { resource } of mode.uses) {
    const { steps } = problem.resources[resource];
    let most = 0;
    steps.forEach((step, i) => {
      const until = i + 1 < steps.length ? steps[i + 1].from : Infinity;
      if (step.from < placement.finish && until > placement.start)
        most = Math.max(most, step.capacity);
    });
    const shortage = steps.find((step, i) => {
      const until = i + 1 < steps.length ? steps[i + 1].from : Infinity;
      return until > placement.start && step.capacity < most;
    });
    if (shortage) latest = Math.min(latest, Math.max(placement.finish, shortage.from));
  }
  return latest;
}

/** The latest start not above `start` whose finish is not above `finish`, own lags and calendar holding. */
function latestStart(located: LocatedPlan, one: Located, start: number, finish: number): number {
  const planned = one.placement.start;
  let s = Math.min(start, finish);
  for (;;) {
    s = calendarLatest(one.mode, one.table, one.minutes, s, finish);
    if (s <= planned) return planned;
    if (ownHold(located, one, s, finishAt(located, one, s))) return s;
    s -= 1;
  }
}

/**
 * For each activity, the minutes by which it can start later than planned with every order of
 * the plan, its crews and its branches kept, no refit finishing later; null where absent.
 *
 * The latest starts are the greatest fixed point of bounds that all grow with the starts they
 * depend on (lags, kept orders, calendars), so that all activities at their latest are a plan
 * too: the floats are exact for the orders kept. Work that is frozen, set to a start, or woven
 * into another's pauses has none.
 */
export function floats(
  problem: Problem,
  plan: Plan,
  compiled: Compiled = compile(problem),
): (number | null)[] {
  const located = locate(compiled, plan);
  const { pairs, woven } = keptOrders(located);
  const n = problem.activities.length;
  const start = new Float64Array(n);
  const finish = new Float64Array(n);
  const startTo = new Float64Array(n).fill(Infinity);
  const finishTo = new Float64Array(n).fill(Infinity);
  const bounding: number[][] = problem.activities.map(() => []);
  pairs.forEach(({ after }, k) => bounding[after].push(k));
  const arcs = compiled.arcs.filter((arc) => arc.from !== arc.to && active(located, arc));
  const before = problem.activities.map((_, a) =>
    arcs.filter((arc) => (arc.open ? arc.to : arc.from) === a),
  );
  const queue: number[] = [];
  const queued = new Uint8Array(n);
  located.at.forEach((one, a) => {
    if (!one) return;
    const { refit } = one.activity;
    finishTo[a] = Math.min(
      refit >= 0 ? plan.finishes[refit] : problem.horizon,
      latestByCapacity(located, one),
    );
    startTo[a] = finishTo[a];
    const held = one.activity.frozen !== null || one.activity.setStart >= 0 || woven.has(a);
    start[a] = held ? one.placement.start : Infinity;
    finish[a] = one.placement.finish;
    queue.push(a);
    queued[a] = 1;
  });
  queue.sort(
    (a, b) =>
      (located.at[b]?.placement.finish ?? 0) - (located.at[a]?.placement.finish ?? 0) || b - a,
  );
  const bound = (a: number, isFinish: boolean, value: number): void => {
    const to = isFinish ? finishTo : startTo;
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
    if (start[a] !== one.placement.start) {
      const s = latestStart(located, one, startTo[a], finishTo[a]);
      if (s === start[a]) continue;
      start[a] = s;
      finish[a] = s === one.placement.start ? one.placement.finish : finishAt(located, one, s);
    }
    for (const arc of before[a]) {
      // An opening bounds its earlier end by its later one; a closing the other way round.
      if (arc.open)
        bound(
          arc.from,
          arc.fromFinish,
          anchorOpenBy(problem, arc, arc.toFinish ? finish[a] : start[a]),
        );
      else
        bound(
          arc.to,
          arc.toFinish,
          anchorBound(problem, arc, arc.fromFinish ? finish[a] : start[a]),
        );
    }
    for (const k of bounding[a]) bound(pairs[k].before, true, pairs[k].latest(start[a]));
  }
  return located.at.map((one, a) => (one ? start[a] - one.placement.start : null));
}
