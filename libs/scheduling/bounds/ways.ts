import { functionFor } from '../model/lag.ts';
import type { Interval, Mode, Problem } from '../model/problem.ts';
import type { Compiled } from '../search/crew/compiled/compiled.ts';
import { spansOf, type Spans } from '../search/crew/compiled/spans.ts';
import { demands, type Ground } from './ground.ts';
import {
  earliestAlone,
  endIn,
  latestAlone,
  outside,
  startFor,
  type Fit,
  type Solo,
} from './solo.ts';

/** A mode with the crews that share their time, alone in the yard. */
export interface Way extends Solo {
  readonly mode: number;
  /** Minutes of the slowest of these crews; Infinity where unknown. */
  readonly longest: number;
  /** `pausing` without overtime, in which work lasts longest. */
  readonly regular: Spans | null;
}

type Draft = { -readonly [K in keyof Way]: Way[K] };

/** The moments at which an anchor may not be; null where there are none. */
export function holesOf(
  problem: Problem,
  { forbidden }: Mode,
  anchor: 'start' | 'finish',
): Spans | null {
  const spans = forbidden
    .filter((one) => one.anchor === anchor)
    .flatMap((one) => one.spans)
    .toSorted((a, b) => a.start - b.start);
  if (spans.length === 0) return null;
  return spansOf(
    spans.flatMap((s) => [s.start, s.end]),
    problem.horizon,
  );
}

const usable = ({ slotLists, now }: Problem, { slots }: Mode): readonly Interval[] | null =>
  slots === null ? null : slotLists[slots].slots.filter(({ bookBy }) => bookBy >= now);

/** Where finishes are forbidden, work with overtime and without end at different moments and are two ways. */
const apart = (way: Way): Way[] =>
  way.finishHoles === null || way.pausing === null
    ? [way]
    : [
        { ...way, regular: way.pausing },
        { ...way, pausing: way.regular },
      ];

/** What a mode asks of each resource in every minute of its work, clean-down included. */
function amountsOf({ held }: Ground, a: number, mode: Mode): Map<number, number> {
  const sum = new Map<number, number>();
  const add = (resource: number, amount: number): void => {
    sum.set(resource, (sum.get(resource) ?? 0) + amount);
  };
  for (const { resource, amount } of mode.demands) if (amount > 0) add(resource, amount);
  // A hold may end with the work, before the clean-down.
  if (mode.cleanDown === 0) for (const hold of held[a]) add(hold.resource, hold.amount);
  return sum;
}

/**
 * The ways that decide how early or late an activity can be. Overtime is free. Of crews with the same shared time
 * the quickest is enough: it can take every start that a slower one can, and ends no later;
 * but not where finishes are forbidden. `potLives`: lags from its start that close for its
 * own finish, whatever is chosen.
 */
export function waysOf(
  ground: Ground,
  compiled: Compiled,
  a: number,
  potLives: readonly number[],
): Way[] {
  const { problem } = ground;
  const activity = problem.activities[a];
  return activity.modes.flatMap((mode, m): Way[] => {
    const { crews, complete, least } = compiled.activities[a].modes[m];
    const minutes = crews === null ? mode.duration : least;
    const amounts = minutes > 0 ? amountsOf(ground, a, mode) : new Map<number, number>();
    const short = [...amounts].some(([resource, amount]) =>
      problem.resources[resource].steps.every(({ capacity }) => capacity < amount),
    );
    const { space } = mode;
    const away = space !== null && activity.parts.some((p) => !ground.places[p].has(space));
    if (short || away) return [];
    const timed = [...amounts.keys()].some(
      (r) => problem.resources[r].calendar !== null && demands(mode, r),
    );
    const fence = ground.fence(mode, amounts);
    const pauses = mode.splittable && !(crews === null && !timed);
    const relieved = mode.breaks === 'relieved';
    const startHoles = holesOf(problem, mode, 'start');
    const finishHoles = holesOf(problem, mode, 'finish');
    const slots = usable(problem, mode);
    const own = potLives.map((l) => functionFor(problem.lags[l].fns, m));
    // One literal for all: ways are many, and objects made by spreading cost ten times as much.
    const way = (
      builders: readonly number[] | null,
      known: boolean,
      least: number,
      most: number,
    ): Draft => ({
      mode: m,
      minutes: least,
      longest: most,
      cleanDown: minutes > 0 ? mode.cleanDown : 0,
      piece:
        pauses || (builders === null && !timed && amounts.size === 0)
          ? null
          : ground.pieces(builders, fence, relieved),
      pausing: pauses && known ? ground.working(builders, fence, true) : null,
      regular: pauses && known ? ground.working(builders, fence, false) : null,
      startHoles,
      finishHoles: known ? finishHoles : null,
      slots,
      potLives: own,
    });
    if (crews === null) return apart(way(null, true, minutes, minutes));
    // Crews were left out: of the people nothing but the least duration is certain.
    if (!complete) return [way(null, false, minutes, Infinity)];
    if (finishHoles === null) {
      const only = activity.fixed?.builders ?? null;
      const lasting = (speed: number): number => Math.max(mode.floor, Math.ceil(mode.work / speed));
      return ground
        .groups(mode, only, crews)
        .map(({ builders, fastest, slowest }) =>
          way(builders, true, lasting(fastest), lasting(slowest)),
        );
    }
    const ways = new Map<string, Draft>();
    for (const { builders, minutes: own } of crews) {
      const group = `${String(ground.crewKey(builders))}|${String(own)}`;
      if (!ways.has(group)) ways.set(group, way(builders, true, own, own));
    }
    return [...ways.values()].flatMap(apart);
  });
}

const fit: Fit = { start: 0, finish: 0 };

/** The ways in the order in which they are asked: `first`, then the others as they come. */
const asked = (first: number, k: number): number => (k === 0 ? first : k <= first ? k - 1 : k);

/**
 * Earliest start and earliest finish, each over all ways; Infinity where there is none. Ways that
 * can change neither are not asked: `first` had better be a good one. Returns the one that ends first.
 */
export function earliestOf(
  problem: Problem,
  ways: readonly Way[],
  first: number,
  from: number,
  leastFinish: number,
  out: Fit,
): number {
  out.start = Infinity;
  out.finish = Infinity;
  let ending = Infinity;
  let best = first;
  for (let k = 0; k < ways.length; k += 1) {
    const index = asked(first, k);
    const way = ways[index];
    const soonest = Math.max(from + way.minutes, leastFinish);
    if (out.start <= from && ending === -Infinity && soonest >= out.finish) continue;
    if (!earliestAlone(problem, way, from, fit)) continue;
    out.start = Math.min(out.start, fit.start);
    const finish = outside(way.finishHoles, Math.max(fit.finish, leastFinish));
    if (finish < out.finish) {
      out.finish = finish;
      best = index;
    }
    if (fit.finish >= leastFinish || way.longest === Infinity) ending = -Infinity;
    if (ending !== -Infinity)
      ending = Math.min(
        ending,
        startFor(way.pausing, way.longest, leastFinish),
        startFor(way.regular, way.longest, leastFinish),
      );
  }
  out.start = Math.max(out.start, ending);
  return best;
}

/** The end of the last span, after which no work that pauses can finish. */
const lastMinute = (spans: Spans | null): number =>
  spans === null || spans.count === 0 ? Infinity : spans.ends[spans.count - 1];

/**
 * Latest start and latest finish over all ways, up to those given; -1 where there is none. Returns
 * the way that starts last.
 */
export function latestOf(
  { horizon }: Problem,
  ways: readonly Way[],
  first: number,
  start: number,
  finish: number,
  out: Fit,
): number {
  out.start = -1;
  out.finish = -1;
  let best = first;
  for (let k = 0; k < ways.length; k += 1) {
    const index = asked(first, k);
    const way = ways[index];
    const by = Math.min(finish, horizon - way.cleanDown);
    if (out.finish >= by && out.start >= Math.min(start, by - way.minutes)) continue;
    const s = latestAlone(way, start, by);
    if (s < 0) continue;
    if (s > out.start) {
      out.start = s;
      best = index;
    }
    const f = way.longest === Infinity ? -1 : endIn(way.regular, s, way.longest);
    const last = f < 0 ? lastMinute(way.pausing) : f;
    out.finish = Math.max(out.finish, Math.min(last, by));
  }
  return best;
}
