import type { Random } from '#kernel/random.ts';
import type { LagFunction, LagFunctions, LagTable } from '../../model/problem.ts';
import { between, chance, pick, range } from '../draw.ts';
import type { Sketch } from './sketch.ts';
import { share, type World } from './world.ts';

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
  const short = rng.below(share(clock, 0.3));
  const long = short + rng.below(share(clock, 0.5));
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
    values: values.map((value) => Math.min(never, value)),
    source: `cure-${table}`,
  });
  return { kind: 'table', table };
}

/**
 * A lag function that the moment `to` meets for the anchor time `from`, exactly in half
 * of the cases.
 */
function meeting(
  rng: Random,
  world: World,
  tables: Tables,
  bound: 'open' | 'close',
  from: number,
  to: number,
): LagFunction {
  const slack = chance(rng, 0.5) ? 0 : rng.below(share(world.clock, 0.3));
  const limit = bound === 'open' ? to - slack : to + slack;
  if (chance(rng, 0.5)) return { kind: 'constant', minutes: limit - from };
  const grid = gridOf(rng, world);
  const raw = cure(rng, world, grid);
  const used = (bound === 'open' ? Math.ceil : Math.floor)(Math.max(0, from) / grid);
  const values = raw.map((value) => value + limit - raw[used]);
  // Some cures never come about when they are begun late.
  const spoils = chance(rng, 0.2) ? used + between(rng, 1, raw.length) : raw.length;
  return store(
    tables,
    grid,
    values.map((value, k) => (k >= spoils ? tables.horizon + 1 : value)),
  );
}

/** The same for an activity in the mode it has, with functions of their own for other modes. */
export function meetings(
  rng: Random,
  world: World,
  tables: Tables,
  bound: 'open' | 'close',
  sketch: Sketch,
  from: number,
  to: number,
): LagFunctions {
  const fn = meeting(rng, world, tables, bound, from, to);
  if (sketch.modes.length === 1 || chance(rng, 0.6)) return [fn];
  return sketch.modes.map((_, m) => {
    if (m === sketch.mode) return fn;
    const other = to + rng.below(share(world.clock, 0.4)) - share(world.clock, 0.2);
    return meeting(rng, world, tables, bound, from, other);
  });
}

/** When it opens for an anchor in the mode planted, counted out from the contract's words. */
export function opening(
  tables: Tables,
  { modes, mode }: Sketch,
  fns: LagFunctions,
  anchor: number,
): number {
  const fn = modes.length > 1 && fns.length > 1 ? fns[mode] : fns[0];
  if (fn.kind === 'constant') return anchor + fn.minutes;
  const { grid, values } = tables.list[fn.table];
  let k = 0;
  while (k * grid < anchor) k++;
  return values[k];
}
