import type { Random } from '#kernel/random.ts';
import type { Anchor, LagFunction, Problem } from '../../model/problem.ts';
import { pick, range } from '../draw.ts';
import type { Planted } from '../planted.ts';
import { any, moved, placing, stretched, type Mutant, type Mutation } from './edit.ts';

/** The problem with a lag more. */
function lagged(
  problem: Problem,
  lag: {
    from: number;
    fromAnchor: Anchor;
    to: number;
    toAnchor: Anchor;
    bound: 'open' | 'close';
    fn: LagFunction;
  },
): Problem {
  const extra = { id: 'tight', kind: 'sequence', source: 'tight', ...lag };
  return { ...problem, lags: [...problem.lags, extra] };
}

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
): { problem: Problem; fn: LagFunction } {
  const grid = pick(rng, [1, 7, 15]);
  const used = (bound === 'open' ? Math.ceil : Math.floor)(anchor / grid);
  const gain = 1 + rng.below(20);
  const values = range(Math.ceil(problem.horizon / grid) + 1).map((k) =>
    Math.max(0, Math.min(problem.horizon + 1, moment + (k - used) * gain)),
  );
  const table = { id: 'tight', grid, values, source: 'tight' };
  return {
    problem: { ...problem, tables: [...problem.tables, table] },
    fn: { kind: 'table', table: problem.tables.length },
  };
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
  const arc = { from: from.activity, fromAnchor, to: to.activity, toAnchor, bound } as const;
  let tight: Problem;
  const constant = anchor < 0 || rng.below(2) === 0;
  if (constant)
    tight = lagged(problem, { ...arc, fn: { kind: 'constant', minutes: moment - anchor } });
  else {
    const { problem: stepped, fn } = stepTable(rng, problem, bound, anchor, moment);
    tight = lagged(stepped, { ...arc, fn });
  }
  const before = { problem: tight, plan };
  if (self) {
    const last = to.segments.at(-1);
    if (!last || last.end - last.start < 2) return null;
    return { before, after: { problem: tight, plan: placing(plan, stretched(to, step)) } };
  }
  // With a constant the other end may move instead.
  const other = constant && rng.below(2) === 0;
  const wrong = other ? moved(from, -step) : moved(to, step);
  return { before, after: { problem: tight, plan: placing(plan, wrong) } };
}

export const lagOpen: Mutation = (source, rng) => tightened('open', source, rng);
export const lagClose: Mutation = (source, rng) => tightened('close', source, rng);
