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
function amountsOf(problem: Problem, a: number, mode: Mode): Map<number, number> {
  const sum = new Map<number, number>();
  const add = (resource: number, amount: number): void => {
    sum.set(resource, (sum.get(resource) ?? 0) + amount);
  };
  for (const { resource, amount } of mode.demands) if (amount > 0) add(resource, amount);
  // A hold may end with the work, before the clean-down.
  if (mode.cleanDown === 0)
    for (const hold of problem.holds) if (hold.activity === a) add(hold.resource, hold.amount);
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
    const amounts = minutes > 0 ? amountsOf(problem, a, mode) : new Map<number, number>();
    const short = [...amounts].some(([resource, amount]) =>
      problem.resources[resource].steps.every(({ capacity }) => capacity < amount),
    );
    const { space } = mode;
    const away = space !== null && activity.parts.some((p) => !ground.places[p].has(space));
    if (short || away) return [];
    const timed = [...amounts.keys()].some(
      (r) => problem.resources[r].calendar !== null && demands(mode, r),
    );
    const hours = (
      builders: readonly number[] | null,
    ): Pick<Way, 'piece' | 'pausing' | 'regular'> => {
      const keeping = { builders, mode, amounts };
      const free = builders === null && !timed;
      if (mode.splittable && !free)
        return {
          piece: null,
          pausing: ground.working(keeping, true),
          regular: ground.working(keeping, false),
        };
      const piece = free && amounts.size === 0 ? null : ground.pieces(keeping);
      return { piece, pausing: null, regular: null };
    };
    const base = {
      mode: m,
      cleanDown: minutes > 0 ? mode.cleanDown : 0,
      startHoles: holesOf(problem, mode, 'start'),
      finishHoles: holesOf(problem, mode, 'finish'),
      slots: usable(problem, mode),
      potLives: potLives.map((l) => functionFor(problem.lags[l].fns, m)),
    };
    if (crews === null) return apart({ ...base, ...hours(null), minutes, longest: minutes });
    // Crews were left out: of the people nothing but the least duration is certain.
    if (!complete) {
      const piece = mode.splittable ? null : hours(null).piece;
      const weak = { ...base, piece, pausing: null, regular: null, finishHoles: null };
      return [{ ...weak, minutes, longest: Infinity }];
    }
    const ways = new Map<string, Way>();
    for (const crew of crews) {
      const key = ground.crewKey(crew.builders);
      const group = base.finishHoles === null ? key : `${key}|${String(crew.minutes)}`;
      const known = ways.get(group) ?? {
        ...base,
        ...hours(crew.builders),
        minutes: crew.minutes,
        longest: crew.minutes,
      };
      ways.set(group, {
        ...known,
        minutes: Math.min(known.minutes, crew.minutes),
        longest: Math.max(known.longest, crew.minutes),
      });
    }
    return [...ways.values()].flatMap(apart);
  });
}

const fit: Fit = { start: 0, finish: 0 };

/** Earliest start and earliest finish, each over all ways; Infinity where there is none. */
export function earliestOf(
  problem: Problem,
  ways: readonly Way[],
  from: number,
  leastFinish: number,
  out: Fit,
): void {
  out.start = Infinity;
  out.finish = Infinity;
  let ending = Infinity;
  for (const way of ways) {
    if (!earliestAlone(problem, way, from, fit)) continue;
    out.start = Math.min(out.start, fit.start);
    out.finish = Math.min(out.finish, outside(way.finishHoles, Math.max(fit.finish, leastFinish)));
    ending = Math.min(
      ending,
      fit.finish >= leastFinish || way.longest === Infinity
        ? -Infinity
        : Math.min(
            startFor(way.pausing, way.longest, leastFinish),
            startFor(way.regular, way.longest, leastFinish),
          ),
    );
  }
  out.start = Math.max(out.start, ending);
}

/** The end of the last span, after which no work that pauses can finish. */
const lastMinute = (spans: Spans | null): number =>
  spans === null || spans.count === 0 ? Infinity : spans.ends[spans.count - 1];

/** Latest start and latest finish over all ways, up to those given; -1 where there is none. */
export function latestOf(
  { horizon }: Problem,
  ways: readonly Way[],
  start: number,
  finish: number,
  out: Fit,
): void {
  out.start = -1;
  out.finish = -1;
  for (const way of ways) {
    const by = Math.min(finish, horizon - way.cleanDown);
    const s = latestAlone(way, start, by);
    if (s < 0) continue;
    out.start = Math.max(out.start, s);
    const f = way.longest === Infinity ? -1 : endIn(way.regular, s, way.longest);
    const last = f < 0 ? lastMinute(way.pausing) : f;
    out.finish = Math.max(out.finish, Math.min(last, by));
  }
}
