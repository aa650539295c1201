import { functionFor, opensAt } from '../../model/lag.ts';
import type { Obstacle } from '../../model/plan.ts';
import type { Interval, OpenSurface } from '../../model/problem.ts';
import { subtract } from '../../search/crew/compiled/spans.ts';
import { meets, type Located, type LocatedPlan } from '../located.ts';
import type { Rule } from './obstacle.ts';
import { moves } from './parts.ts';

/** What dust may not reach, where and when. */
interface Exposure extends Interval {
  readonly activity: number;
  readonly space: number;
}

/** Dust in the air of a space. */
interface Dust extends Interval {
  readonly activity: number;
  readonly from: number;
  readonly to: number;
}

/** When a surface is no longer open. */
function safeAt({ problem, at }: LocatedPlan, surface: OpenSurface, owner: Located): number {
  const covers = surface.coveredBy.flatMap((cover) => at[cover]?.shape.start ?? []);
  if (covers.length > 0) return Math.min(...covers);
  return opensAt(problem, functionFor(surface.until, owner.placement.mode), owner.shape.end);
}

/** An open surface goes with its part, and is in both spaces while that is moved. */
function ofSurface(located: LocatedPlan, surface: OpenSurface): Exposure[] {
  const owner = located.at[surface.activity];
  if (!owner) return [];
  const safe = safeAt(located, surface, owner);
  const later = owner.activity.parts
    .slice(0, 1)
    .flatMap((part) => moves(located, part))
    .filter(({ placement, shape }) => {
      return placement.activity !== surface.activity && shape.end > owner.shape.start;
    });
  const found: Exposure[] = [];
  let space = owner.mode.space;
  let { start } = owner.shape;
  for (const { shape, mode } of later) {
    if (space !== null)
      found.push({ activity: surface.activity, space, start, end: Math.min(safe, shape.end) });
    space = mode.movesTo;
    start = Math.max(owner.shape.start, shape.start);
  }
  if (space !== null) found.push({ activity: surface.activity, space, start, end: safe });
  return found;
}

const ofWork = ({ placement, mode, shape }: Located): Exposure[] =>
  mode.air === 'wet' && mode.space !== null
    ? [{ activity: placement.activity, space: mode.space, start: shape.start, end: shape.end }]
    : [];

/** All that is ever open, or what some activity leaves so. */
export function exposures(located: LocatedPlan, of: Located | null = null): Exposure[] {
  const { problem, at } = located;
  const wet = of === null ? at.flatMap((one) => (one ? ofWork(one) : [])) : ofWork(of);
  const open = problem.surfaces.flatMap((surface) =>
    of === null || surface.activity === of.placement.activity ? ofSurface(located, surface) : [],
  );
  return [...wet, ...open].filter(({ start, end }) => start < end);
}

/** When each barrier is closed, as flat start, end pairs. */
function closedTimes({ problem, at }: LocatedPlan): number[][] {
  return problem.barriers.map(({ closed }, barrier) => {
    const acts = at
      .filter((one) => one?.mode.barrier?.barrier === barrier)
      .filter((one) => one !== undefined)
      .sort((x, y) => x.shape.start - y.shape.start);
    const flat: number[] = [];
    let from = closed ? -Infinity : Infinity;
    for (const { shape, mode } of acts) {
      if (from < shape.start) flat.push(from, shape.start);
      from = mode.barrier?.closes === true ? shape.end : Infinity;
    }
    if (from < Infinity) flat.push(from, Infinity);
    return flat;
  });
}

function dustOf(located: LocatedPlan, one: Located, closed: readonly number[][]): Dust[] {
  const from = one.mode.space;
  if (one.mode.air !== 'dusty' || from === null) return [];
  const { settling, dustReaches } = located.problem.spaces[from];
  return dustReaches.flatMap(({ space, barrier }) =>
    one.shape.segments.flatMap(({ start, end }) => {
      const whole = [start, end + settling];
      const open = barrier === null ? whole : subtract(whole, closed[barrier]);
      const spans: Dust[] = [];
      for (let i = 0; i < open.length; i += 2)
        spans.push({
          activity: one.placement.activity,
          from,
          to: space,
          start: open[i],
          end: open[i + 1],
        });
      return spans;
    }),
  );
}

interface Meeting {
  readonly dust: Dust;
  readonly exposure: Exposure;
}

/** All dust and all that is open. */
interface Scene {
  readonly closed: readonly number[][];
  readonly dust: readonly Dust[];
  readonly open: readonly Exposure[];
}

function sceneOf(located: LocatedPlan): Scene {
  const closed = closedTimes(located);
  const dust = located.at.flatMap((one) => (one ? dustOf(located, one, closed) : []));
  return { closed, dust, open: exposures(located) };
}

/** Scenes of plans that several questions are asked about. */
const known = new WeakMap<LocatedPlan, Scene>();

function plannedScene(plan: LocatedPlan): Scene {
  const scene = known.get(plan) ?? sceneOf(plan);
  known.set(plan, scene);
  return scene;
}

const between = (dust: readonly Dust[], open: readonly Exposure[]): Meeting[] =>
  dust.flatMap((one) =>
    open
      .filter((exposure) => exposure.space === one.to && meets(exposure, one))
      .map((exposure) => ({ dust: one, exposure })),
  );

/** Where others' dust goes, or what others leave open, depends on it. */
const decidesForOthers = (
  { problem }: LocatedPlan,
  { placement, mode, activity }: Located,
): boolean =>
  mode.barrier !== null ||
  (mode.movesTo !== null && activity.parts.length > 0) ||
  problem.surfaces.some(({ coveredBy }) => coveredBy.includes(placement.activity));

const mattersToAir = ({ problem }: LocatedPlan, { placement, mode }: Located): boolean =>
  mode.air !== 'clean' ||
  problem.surfaces.some((surface) => surface.activity === placement.activity);

/** What of its own, and what of others' through it, meets in the air. */
function meetings(located: LocatedPlan, one: Located, plan: LocatedPlan): Meeting[] {
  if (decidesForOthers(located, one)) {
    const { dust, open } = sceneOf(located);
    return between(dust, open);
  }
  if (!mattersToAir(located, one)) return [];
  const { closed, dust, open } = plannedScene(plan);
  const a = one.placement.activity;
  const others = open.filter(({ activity }) => activity !== a);
  const own = exposures(located, one);
  return [
    ...between(dustOf(located, one, closed), [...others, ...own]),
    ...between(
      dust.filter(({ activity }) => activity !== a),
      own,
    ),
  ];
}

/** Dust, its own or another's, that would reach something open. In the plan none does. */
export const air: Rule = (located, one, plan) => {
  const { activity: a, start: planned } = one.placement;
  return meetings(located, one, plan).map(({ dust, exposure }): Obstacle => {
    const reason = { kind: 'dust', from: dust.from, to: dust.to } as const;
    if (dust.activity === a) return { from: exposure.activity, reason, until: exposure.end };
    if (exposure.activity === a) return { from: dust.activity, reason, until: dust.end };
    // It moves a barrier or a part: between the two it may stand where it was planned.
    return { from: dust.activity, reason, until: planned };
  });
};
