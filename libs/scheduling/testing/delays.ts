import type { Random } from '#kernel/random.ts';
import type { LagFunction, LagTable } from '../model/problem.ts';
import { between, chance, pick, range } from './draw.ts';
import { part, type World } from './world.ts';

/** Lag tables collected while a problem is made up. */
export interface Tables {
  readonly horizon: number;
  readonly list: LagTable[];
}

const gridOf = (rng: Random, world: World): number =>
  world.clock.day < 100 ? pick(rng, [1, 2]) : pick(rng, [5, 15, 60]);

/** A delay that is longer for what is begun in the evening, made non-decreasing; not capped yet. */
function cure(rng: Random, world: World, grid: number): number[] {
  const { clock, horizon } = world;
  const short = rng.below(part(clock, 0.3));
  const long = short + rng.below(part(clock, 0.5));
  let last = 0;
  return range(Math.ceil(horizon / grid) + 1).map((k) => {
    const evening = ((k * grid) % clock.day) / clock.day;
    last = Math.max(last, k * grid + Math.round(short + (long - short) * evening));
    return last;
  });
}

function store(tables: Tables, grid: number, values: readonly number[]): LagFunction {
  const never = tables.horizon + 1;
  const table = tables.list.length;
  tables.list.push({
    id: `table-${table}`,
    grid,
    values: values.map((value) => Math.min(never, Math.max(0, value))),
    source: `cure-${table}`,
  });
  return { kind: 'table', table };
}

/** When a surface is safe from dust: the function, and the same for use while placing. */
export function safety(
  rng: Random,
  world: World,
  tables: Tables,
): { until: LagFunction; safeAt: (finish: number) => number } {
  if (chance(rng, 0.3)) {
    const minutes = rng.below(part(world.clock, 0.3));
    return { until: { kind: 'constant', minutes }, safeAt: (finish) => finish + minutes };
  }
  const grid = gridOf(rng, world);
  const values = cure(rng, world, grid);
  return {
    until: store(tables, grid, values),
    safeAt: (finish) => Math.min(world.horizon + 1, values[Math.ceil(finish / grid)]),
  };
}

/**
 * A lag function that the moment `to` meets for the anchor time `from`, exactly in half
 * of the cases.
 */
export function meeting(
  rng: Random,
  world: World,
  tables: Tables,
  bound: 'open' | 'close',
  from: number,
  to: number,
): LagFunction {
  const slack = chance(rng, 0.5) ? 0 : rng.below(part(world.clock, 0.3));
  const limit = bound === 'open' ? to - slack : to + slack;
  if (chance(rng, 0.5)) return { kind: 'constant', minutes: limit - from };
  const grid = gridOf(rng, world);
  const raw = cure(rng, world, grid);
  const used = (bound === 'open' ? Math.ceil : Math.floor)(from / grid);
  const values = raw.map((value) => value + limit - raw[used]);
  // Some cures never come about when they are begun late.
  const spoils = chance(rng, 0.2) ? used + between(rng, 1, raw.length) : raw.length;
  return store(
    tables,
    grid,
    values.map((value, k) => (k >= spoils ? tables.horizon + 1 : value)),
  );
}
