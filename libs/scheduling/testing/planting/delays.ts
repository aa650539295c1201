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

/** Moments by anchor: on a grid, or on lines between knots. */
type Curve = { readonly grid: number } | { readonly at: readonly number[] };

function store(tables: Tables, curve: Curve, values: readonly number[]): LagFunction {
  const table = tables.list.length;
  tables.list.push({ id: `table-${table}`, ...curve, values, source: `cure-${table}` });
  return { kind: 'table', table };
}

/** What the contract's words say of a table for the anchor `t`, minute 0 or later: looked for from its beginning. */
function reading(
  curve: Curve,
  values: readonly number[],
  bound: 'open' | 'close',
  t: number,
): number {
  const at = (k: number): number => ('at' in curve ? curve.at[k] : k * curve.grid);
  let k = 0;
  while (k < values.length - 1 && at(k) < t) k += 1;
  if (at(k) <= t) return values[k];
  const steep = values[k] - values[k - 1];
  const share = 'at' in curve ? (steep * (t - at(k - 1))) / (at(k) - at(k - 1)) : steep;
  const round = bound === 'open' ? Math.ceil : Math.floor;
  if ('at' in curve) return values[k - 1] + round(share);
  return bound === 'open' ? values[k] : values[k - 1];
}

/** Two of three grid points as knots, the last one too. */
const thinned = (values: readonly number[], offset: number): number[] =>
  range(values.length).filter((k) => k === 0 || k === values.length - 1 || (k + offset) % 3 !== 0);

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
  const anchor = Math.max(0, from);
  const next = Math.ceil(anchor / grid);
  const last = bound === 'open' ? next : Math.floor(anchor / grid);
  // Some cures never come about when they are begun late.
  const spoils = chance(rng, 0.2) ? last + between(rng, 1, raw.length) : raw.length;
  const never = tables.horizon + 1;
  const capped = (list: readonly number[], rise: number, late: (k: number) => boolean): number[] =>
    list.map((value, k) => (late(k) ? never : Math.min(never, value + rise)));
  if ((last + tables.list.length) % 2 === 0)
    return store(
      tables,
      { grid },
      capped(raw, limit - raw[last], (k) => k >= spoils),
    );
  const kept = thinned(raw, last);
  const line = { at: kept.map((k) => k * grid) };
  const values = kept.map((k) => raw[k]);
  const rise = limit - reading(line, values, bound, anchor);
  const lines = capped(values, rise, (k) => kept[k] >= Math.max(spoils, next + 2));
  const wanted = Math.min(never, limit);
  if (reading(line, lines, bound, anchor) === wanted) return store(tables, line, lines);
  // The cap has bent the line at the anchor: a knot there says what it has to.
  const before = line.at.filter((minute) => minute < anchor).length;
  return store(tables, { at: [...line.at.slice(0, before), anchor, ...line.at.slice(before)] }, [
    ...lines.slice(0, before),
    wanted,
    ...lines.slice(before),
  ]);
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
  const table = tables.list[fn.table];
  return reading(table, table.values, 'open', Math.max(0, anchor));
}
