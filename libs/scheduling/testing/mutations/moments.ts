import type { Random } from '#kernel/random.ts';
import type { Anchor, FixedWork, Interval, Problem, Slot } from '../../model/problem.ts';
import type { Planted } from '../planted.ts';
import {
  any,
  bound,
  changing,
  changingMode,
  freedAt,
  isFrozen,
  moved,
  placing,
  replaced,
  revalued,
  stretched,
  type Mutant,
  type Mutation,
} from './edit.ts';

/** Released at the minute it starts, then started a minute before or released a minute after. */
export const release: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const placement = any(rng, bound(source));
  if (!placement) return null;
  const { activity, start } = placement;
  const released = (at: number): Problem =>
    changing(problem, activity, (old) => ({
      ...old,
      releases: [...old.releases, { at, kind: 'delivery', source: 'tight' }],
    }));
  const before = { problem: released(start), plan };
  const after =
    start > 0 && rng.below(2) === 0
      ? placing(before, moved(placement, -1))
      : { problem: released(start + 1), plan };
  return { before, after };
};

const cut = new WeakMap<Problem, Map<number, Problem>>();

/**
 * The problem up to `end`; kept, since a yard's tables are long and all mutants of a plan share them.
 * A line that is bent by the new never gives less than it did before: a closing may refuse the plan then.
 */
function upTo(problem: Problem, end: number): Problem {
  const known = cut.get(problem) ?? new Map<number, Problem>();
  cut.set(problem, known);
  const made: Problem = known.get(end) ?? {
    ...problem,
    horizon: end,
    now: Math.min(problem.now, end),
    tables: problem.tables.map((table) => ({
      ...table,
      values: table.values.map((value) => Math.min(value, end + 1)),
    })),
  };
  known.set(end, made);
  return made;
}

/** The horizon is where the last work finishes; then it finishes a minute later. */
export const horizon: Mutation = ({ problem, plan }, rng) => {
  const end = Math.max(...plan.placements.map((one) => freedAt(problem, one)));
  const last = any(
    rng,
    plan.placements.filter((one) => freedAt(problem, one) === end),
  );
  if (!last || end < 1) return null;
  const before = revalued({ problem: upTo(problem, end), plan }, plan.placements);
  const late = rng.below(2) === 0 && last.segments.length > 0 ? stretched(last, 1) : moved(last, 1);
  return { before, after: placing(before, late) };
};

/** It is forbidden up to or from the minute beside the start or the finish; then it lies there. */
function forbidden(anchor: Anchor, source: Planted, rng: Random): Mutant | null {
  const { problem, plan } = source;
  const placement = any(rng, bound(source));
  if (!placement) return null;
  const moment = placement[anchor];
  const length = 1 + rng.below(30);
  const earlier = moment > 0 && rng.below(2) === 0;
  const span: Interval = earlier
    ? { start: Math.max(0, moment - length), end: moment }
    : { start: moment + 1, end: moment + 1 + length };
  const tight = changingMode(problem, placement, (mode) => ({
    ...mode,
    forbidden: [...mode.forbidden, { anchor, spans: [span], kind: 'dew', source: 'tight' }],
  }));
  const before = { problem: tight, plan };
  return { before, after: placing(before, moved(placement, earlier ? -1 : 1)) };
}

export const forbiddenStart: Mutation = (source, rng) => forbidden('start', source, rng);
export const forbiddenFinish: Mutation = (source, rng) => forbidden('finish', source, rng);

/** What happened is put elsewhere by a minute, or its branch given up. */
function denied(source: Planted, rng: Random): Mutant | null {
  const { problem, plan } = source;
  const happened = any(
    rng,
    plan.placements.filter((one) => isFrozen(problem, one)),
  );
  if (!happened) return null;
  const taken = problem.choices.findIndex(({ branches }, c) =>
    branches[plan.branches[c]].activities.includes(happened.activity),
  );
  if (taken >= 0 && problem.choices[taken].branches.length > 1 && rng.below(2) === 0) {
    const { branches } = problem.choices[taken];
    const other = (plan.branches[taken] + 1 + rng.below(branches.length - 1)) % branches.length;
    const changed = { ...plan, branches: replaced(plan.branches, taken, other) };
    return { before: source, after: { problem, plan: changed } };
  }
  const step = rng.below(2) === 0 ? 1 : -1;
  const wrong = rng.below(2) === 0 ? moved(happened, step) : stretched(happened, 1);
  return { before: source, after: placing(source, wrong) };
}

/** The start, the finish or the people are set as they are, or it has happened; then one is changed. */
export const fixed: Mutation = (source, rng) => {
  const { problem, plan } = source;
  if (rng.below(3) === 0) return denied(source, rng);
  const placement = any(rng, bound(source));
  if (!placement) return null;
  const { activity, start, finish, crew } = placement;
  const setting = (wish: Partial<FixedWork>): Planted => ({
    problem: changing(problem, activity, (old) => ({
      ...old,
      fixed: { kind: 'set', start: null, finish: null, builders: null, ...wish },
    })),
    plan,
  });
  const builders = crew.map((member) => member.builder);
  const stranger = any(
    rng,
    problem.builders.map((_, b) => b).filter((b) => !builders.includes(b)),
  );
  if (crew.length > 0 && stranger !== null && rng.below(2) === 0) {
    const before = setting({ builders });
    const [first, ...rest] = crew;
    const swapped = { ...placement, crew: [{ ...first, builder: stranger }, ...rest] };
    return { before, after: placing(before, swapped) };
  }
  const before = setting(rng.below(2) === 0 ? { start } : { finish });
  return { before, after: placing(before, moved(placement, rng.below(2) === 0 ? 1 : -1)) };
};

/**
 * A slot that the work just fits into: then it lies a minute beside it, uses another one that is a
 * minute too short or was to be booked a minute ago, or none.
 */
export const slot: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const placement = any(
    rng,
    bound(source).filter((one) => one.slot === null && one.start < one.finish),
  );
  if (!placement) return null;
  const whole: Slot = {
    start: placement.start,
    end: freedAt(problem, placement),
    cost: 1,
    bookBy: problem.now,
  };
  const way = rng.below(5);
  const other: Slot =
    way === 0
      ? { ...whole, bookBy: problem.now - 1 }
      : { ...whole, end: whole.end - 1, start: way === 1 ? whole.start - 1 : whole.start };
  if (other.start >= other.end) return null;
  const slots = other.start < whole.start ? [other, whole] : [whole, other];
  const tight: Problem = {
    ...changingMode(problem, placement, (mode) => ({ ...mode, slots: problem.slotLists.length })),
    slotLists: [...problem.slotLists, { id: 'tight', slots, source: 'tight' }],
  };
  const used = { ...placement, slot: slots.indexOf(whole) };
  const before = placing({ problem: tight, plan }, used);
  const wrongs = [
    { ...used, slot: slots.indexOf(other) },
    { ...used, slot: slots.indexOf(other) },
    { ...used, slot: null },
    moved(used, 1),
    moved(used, -1),
  ];
  return { before, after: placing(before, wrongs[way]) };
};
