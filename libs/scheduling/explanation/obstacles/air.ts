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
export function ofSurface(located: LocatedPlan, surface: OpenSurface): Exposure[] {
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
  return found.filter((one) => one.start < one.end);
}

const ofWork = ({ placement, mode, shape }: Located): Exposure[] =>
  mode.air === 'wet' && mode.space !== null && shape.start < shape.end
    ? [{ activity: placement.activity, space: mode.space, start: shape.start, end: shape.end }]
    : [];

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

/** All dust and all that is open: by activity, and surfaces by their index. */
interface Scene {
  readonly closed: readonly number[][];
  readonly dust: readonly (readonly Dust[])[];
  readonly wet: readonly (readonly Exposure[])[];
  readonly open: readonly (readonly Exposure[])[];
}

function sceneOf(located: LocatedPlan): Scene {
  const closed = closedTimes(located);
  return {
    closed,
    dust: located.at.map((one) => (one ? dustOf(located, one, closed) : [])),
    wet: located.at.map((one) => (one ? ofWork(one) : [])),
    open: located.problem.surfaces.map((surface) => ofSurface(located, surface)),
  };
}

/** Scenes of plans that several questions are asked about. */
const known = new WeakMap<LocatedPlan, Scene>();

function plannedScene(plan: LocatedPlan): Scene {
  const scene = known.get(plan) ?? sceneOf(plan);
  known.set(plan, scene);
  return scene;
}

/** What of the air depends on an activity. */
interface Share {
  /** Activities whose dust goes elsewhere, ascending. */
  readonly dust: readonly number[];
  readonly surfaces: readonly number[];
  readonly closed: readonly number[][];
}

function shareOf(located: LocatedPlan, one: Located, scene: Scene): Share {
  const { reach } = located;
  const a = one.placement.activity;
  const { barrier, movesTo } = one.mode;
  const carried = movesTo === null ? [] : one.activity.parts.flatMap((p) => reach.onPart[p]);
  const surfaces = [...new Set([...reach.left[a], ...reach.covered[a], ...carried])];
  const own = one.mode.air === 'dusty' ? [a] : [];
  if (barrier === null) return { dust: own, surfaces, closed: scene.closed };
  const through = [...new Set([...own, ...reach.through[barrier.barrier]])];
  return { dust: through.sort((x, y) => x - y), surfaces, closed: closedTimes(located) };
}

/** The scene once `a` has moved, from that before. */
export function keepScene(before: LocatedPlan, after: LocatedPlan, a: number): void {
  const scene = known.get(before);
  const one = after.at[a];
  if (!scene || !one) return;
  const { dust: dusty, surfaces, closed } = shareOf(after, one, scene);
  const dust = scene.dust.slice();
  const wet = scene.wet.slice();
  const open = scene.open.slice();
  for (const x of dusty) {
    const other = after.at[x];
    dust[x] = other ? dustOf(after, other, closed) : [];
  }
  wet[a] = ofWork(one);
  for (const s of surfaces) open[s] = ofSurface(after, after.problem.surfaces[s]);
  known.set(after, { closed, dust, wet, open });
}

interface Meeting {
  readonly dust: Dust;
  readonly exposure: Exposure;
  /** Their order: by dust, then wet work, then surfaces. */
  readonly order: readonly [activity: number, dust: number, exposure: number];
}

const before = ({ order: x }: Meeting, { order: y }: Meeting): number =>
  x[0] - y[0] || x[1] - y[1] || x[2] - y[2];

/** What of its own, and what of others' through it, meets in the air. In the plan nothing does. */
function meetings(located: LocatedPlan, one: Located, plan: LocatedPlan): Meeting[] {
  const { reach, problem } = located;
  const scene = plannedScene(plan);
  const a = one.placement.activity;
  const n = located.at.length;
  const { dust, surfaces, closed } = shareOf(located, one, scene);
  const moved = new Map(surfaces.map((s) => [s, ofSurface(located, problem.surfaces[s])]));
  const wet = ofWork(one);
  const found: Meeting[] = [];
  const meet = (x: Dust, k: number, open: readonly Exposure[], e: number): void => {
    for (const exposure of open)
      if (exposure.space === x.to && meets(exposure, x))
        found.push({ dust: x, exposure, order: [x.activity, k, e] });
  };
  for (const x of dust) {
    const other = located.at[x];
    (other ? dustOf(located, other, closed) : []).forEach((cloud, k) => {
      for (const w of reach.wet[cloud.to]) meet(cloud, k, w === a ? wet : scene.wet[w], w);
      for (const s of reach.open[cloud.to]) meet(cloud, k, moved.get(s) ?? scene.open[s], n + s);
    });
  }
  const against = (open: readonly Exposure[], e: number): void => {
    for (const exposure of open)
      for (const x of reach.dusty[exposure.space])
        if (!dust.includes(x))
          scene.dust[x].forEach((cloud, k) => {
            meet(cloud, k, [exposure], e);
          });
  };
  against(wet, a);
  for (const [s, open] of moved) against(open, n + s);
  return found.length > 1 ? found.sort(before) : found;
}

const NONE: readonly Meeting[] = [];

/** Dust, its own or another's, that would reach something open. */
export const air: Rule = (located, one, plan) => {
  const { activity: a, start: planned } = one.placement;
  const { reach } = located;
  const matters =
    one.mode.air !== 'clean' ||
    one.mode.barrier !== null ||
    (one.mode.movesTo !== null && one.activity.parts.length > 0) ||
    reach.left[a].length + reach.covered[a].length > 0;
  return (matters ? meetings(located, one, plan) : NONE).map(({ dust, exposure }): Obstacle => {
    const reason = { kind: 'dust', from: dust.from, to: dust.to } as const;
    if (dust.activity === a) return { from: exposure.activity, reason, until: exposure.end };
    if (exposure.activity === a) return { from: dust.activity, reason, until: dust.end };
    // It moves a barrier or a part: between the two it may stand where it was planned.
    return { from: dust.activity, reason, until: planned };
  });
};
