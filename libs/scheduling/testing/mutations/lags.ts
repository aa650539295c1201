import type { Random } from '#kernel/random.ts';
import type { LagFunction, LagFunctions, Problem } from '../../model/problem.ts';
import { pick, range } from '../draw.ts';
import type { Planted } from '../planted.ts';
import { any, moved, placing, stretched, type Mutant, type Mutation } from './edit.ts';

type Given = { readonly problem: Problem; readonly fn: LagFunction };

const withTable = (
  problem: Problem,
  curve: { readonly grid: number } | { readonly at: readonly number[] },
  values: readonly number[],
): Given => ({
  problem: {
    ...problem,
    tables: [...problem.tables, { id: 'tight', ...curve, values, source: 'tight' }],
  },
  fn: { kind: 'table', table: problem.tables.length },
});

/**
 * A table that gives `moment` for the anchor: on a grid beside the anchor, so that the
 * safe side of the rounding is what makes it tight, and less before, more after.
 */
function stepTable(
  rng: Random,
  problem: Problem,
  bound: 'open' | 'close',
  anchor: number,
  moment: number,
): Given {
  const grid = pick(rng, [1, 7, 15]);
  const used = (bound === 'open' ? Math.ceil : Math.floor)(anchor / grid);
  const gain = 1 + rng.below(20);
  const values = range(Math.ceil(problem.horizon / grid) + 1).map((k) =>
    Math.max(0, Math.min(problem.horizon + 1, moment + (k - used) * gain)),
  );
  return withTable(problem, { grid }, values);
}

/**
 * The same of lines: the anchor lies between two knots, of which the second is higher by what
 * there is room for, and the line there is rounded to `moment`.
 */
function lineTable(
  rng: Random,
  problem: Problem,
  bound: 'open' | 'close',
  anchor: number,
  moment: number,
): Given {
  const minutes = 2 + rng.below(14);
  const past = Math.min(anchor, 1 + rng.below(minutes - 1));
  const rise = rng.below(Math.max(0, Math.min(40, problem.horizon + 1 - moment)) + 1);
  const up = bound === 'open' ? minutes - 1 : 0;
  const low = moment - Math.floor((past * rise + up) / minutes);
  const first = anchor - past;
  const begun = first > 0 ? { at: [0], values: [low - 1] } : { at: [], values: [] };
  const after = first + minutes;
  const end = after < problem.horizon ? [problem.horizon] : [];
  return withTable(problem, { at: [...begun.at, first, after, ...end] }, [
    ...begun.values,
    low,
    low + rise,
    ...end.map((minute) => minute + 1),
  ]);
}

/** One for all modes; or for each mode its own, those of the others asking for nothing. */
function byMode(
  rng: Random,
  problem: Problem,
  fn: LagFunction,
  bound: 'open' | 'close',
  of: {
    activity: number;
    mode: number;
  },
): LagFunctions {
  const { modes } = problem.activities[of.activity];
  if (modes.length === 1 || rng.below(2) === 0) return [fn];
  const far = 4 * problem.horizon;
  const slack: LagFunction = { kind: 'constant', minutes: bound === 'open' ? -far : far };
  return modes.map((_, m) => (m === of.mode ? fn : slack));
}

/** A lag that the two moments meet exactly; then `to` moves over it by one minute. */
function tightened(
  bound: 'open' | 'close',
  { problem, plan }: Planted,
  rng: Random,
): Mutant | null {
  const from = any(rng, plan.placements);
  const to = any(rng, plan.placements);
  if (!from || !to) return null;
  const self = from.activity === to.activity;
  const fromAnchor = self ? 'start' : pick(rng, ['start', 'finish'] as const);
  const toAnchor = self ? 'finish' : pick(rng, ['start', 'finish'] as const);
  const anchor = from[fromAnchor];
  const moment = to[toAnchor];
  const step = bound === 'open' ? -1 : 1;
  const constant = anchor < 0 || moment < 0 || rng.below(2) === 0;
  const { problem: tabled, fn } = constant
    ? { problem, fn: { kind: 'constant', minutes: moment - anchor } as const }
    : pick(rng, [stepTable, lineTable])(rng, problem, bound, anchor, moment);
  const lag = {
    id: 'tight',
    from: from.activity,
    fromAnchor,
    to: to.activity,
    toAnchor,
    bound,
    fns: byMode(rng, problem, fn, bound, from),
    kind: 'sequence',
    source: 'tight',
  };
  const before = { problem: { ...tabled, lags: [...problem.lags, lag] }, plan };
  if (self) {
    const last = to.segments.at(-1);
    if (!last || last.end - last.start < 2) return null;
    return { before, after: placing(before, stretched(to, step)) };
  }
  // With a constant the other end may move instead.
  const other = constant && rng.below(2) === 0;
  return { before, after: placing(before, other ? moved(from, -step) : moved(to, step)) };
}

export const lagOpen: Mutation = (source, rng) => tightened('open', source, rng);
export const lagClose: Mutation = (source, rng) => tightened('close', source, rng);
