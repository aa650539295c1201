import type { Random } from '#kernel/random.ts';
import type { CapacityStep, Hold, HoldEnd, Resource, Stock } from '../../model/problem.ts';
import { between, chance, pick, range, sample } from '../draw.ts';
import { meetings, opening, type Tables } from './delays.ts';
import type { Sketch } from './sketch.ts';
import { share, type World } from './world.ts';

/** Holds of some activities, until lags and until others start or finish. */
export function holds(
  rng: Random,
  world: World,
  tables: Tables,
  sketches: readonly Sketch[],
): Hold[] {
  const every = range(sketches.length);
  return sample(rng, every, rng.below(1 + Math.ceil(sketches.length * 0.4))).map((activity, h) => {
    const sketch = sketches[activity];
    const finish = sketch.place?.finish ?? 0;
    const ends = range(between(rng, 1, 3)).map((): HoldEnd => {
      const other = pick(rng, every);
      if (other !== activity && chance(rng, 0.5))
        return { kind: 'activity', activity: other, anchor: pick(rng, ['start', 'finish']) };
      const until = finish + rng.below(share(world.clock, 0.8));
      return { kind: 'lag', fns: meetings(rng, world, tables, 'open', sketch, finish, until) };
    });
    const resource = rng.below(world.tools.length);
    return {
      id: `hold-${h}`,
      activity,
      resource,
      amount: between(rng, 1, 2),
      ends,
      source: `mould-${h}`,
    };
  });
}

function endOf(tables: Tables, sketches: readonly Sketch[], { activity, ends }: Hold): number {
  const own = sketches[activity].place;
  if (!own) return 0;
  const moments = ends.map((end) =>
    end.kind === 'lag'
      ? opening(tables, sketches[activity], end.fns, own.finish)
      : (sketches[end.activity].place?.[end.anchor] ?? -Infinity),
  );
  return Math.max(own.finish, ...moments);
}

/** Use of one resource by minute, counted out. */
function useOf(
  world: World,
  tables: Tables,
  sketches: readonly Sketch[],
  held: readonly Hold[],
  resource: number,
): Int32Array {
  const use = new Int32Array(world.horizon);
  const count = (start: number, end: number, amount: number): void => {
    for (let m = Math.max(0, start); m < Math.min(end, world.horizon); m++) use[m] += amount;
  };
  for (const { modes, mode, place, frozen } of sketches) {
    if (!place) continue;
    const { demands, cleanDown } = modes[mode];
    for (const demand of demands) {
      if (demand.resource !== resource) continue;
      if (demand.keptWhilePaused) count(place.start, place.finish, demand.amount);
      else for (const { start, end } of place.segments) count(start, end, demand.amount);
      if (!frozen) count(place.finish, place.finish + cleanDown, demand.amount);
    }
  }
  for (const hold of held) {
    const own = sketches[hold.activity].place;
    if (own && hold.resource === resource)
      count(own.start, endOf(tables, sketches, hold), hold.amount);
  }
  return use;
}

/** The most that one activity asks for by itself, over all its modes and holds. */
function mostAsked(sketches: readonly Sketch[], held: readonly Hold[], resource: number): number {
  const asked = sketches.map(({ modes }, a) => {
    const amounts = modes.flatMap(({ demands }) =>
      demands.filter((one) => one.resource === resource).map(({ amount }) => amount),
    );
    const own = held.filter((hold) => hold.activity === a && hold.resource === resource);
    return Math.max(0, ...amounts) + own.reduce((sum, { amount }) => sum + amount, 0);
  });
  return Math.max(0, ...asked);
}

/** Capacities that the sketches just fit into, or nearly. */
export function resources(
  rng: Random,
  world: World,
  tables: Tables,
  sketches: readonly Sketch[],
  held: readonly Hold[],
): Resource[] {
  return world.tools.map((calendar, resource) => {
    const use = useOf(world, tables, sketches, held, resource);
    const cuts = new Set([0, ...range(rng.below(3)).map(() => rng.below(world.horizon))]);
    const from = [...cuts].sort((a, b) => a - b);
    const steps: CapacityStep[] = from.map((start, i) => {
      const peak = use
        .subarray(start, from[i + 1] ?? world.horizon)
        .reduce((a, b) => Math.max(a, b), 0);
      return { from: start, capacity: peak + (chance(rng, 0.5) ? 0 : between(rng, 1, 2)) };
    });
    // Every mode could be used at some time.
    const last = steps.length - 1;
    const capacity = Math.max(steps[last].capacity, mostAsked(sketches, held, resource));
    steps[last] = { ...steps[last], capacity };
    return { id: `tool-${resource}`, steps, calendar, source: `shelf-${resource}` };
  });
}

/** As much of each stock as the planted modes consume together, or a little more. */
export function stocks(rng: Random, world: World, sketches: readonly Sketch[]): Stock[] {
  return range(world.stocks).map((stock) => {
    const used = sketches
      .filter(({ place }) => place !== null)
      .flatMap(({ modes, mode }) => modes[mode].consumes)
      .filter((one) => one.stock === stock)
      .reduce((sum, { amount }) => sum + amount, 0);
    // Every mode could be used by itself.
    const most = sketches
      .flatMap(({ modes }) => modes.flatMap(({ consumes }) => consumes))
      .filter((one) => one.stock === stock)
      .reduce((max, { amount }) => Math.max(max, amount), 0);
    const total = Math.max(most, used + (chance(rng, 0.5) ? 0 : rng.below(6)));
    return { id: `stock-${stock}`, total, source: `drum-${stock}` };
  });
}
