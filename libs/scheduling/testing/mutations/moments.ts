import type { FixedWork, Interval, Problem } from '../../model/problem.ts';
import type { Planted } from '../planted.ts';
import {
  any,
  changing,
  changingMode,
  isFrozen,
  moved,
  placing,
  stretched,
  type Mutation,
} from './edit.ts';

const free = ({ problem, plan }: Planted): Planted['plan']['placements'] =>
  plan.placements.filter((placement) => !isFrozen(problem, placement));

/** Released at the minute it starts, then started a minute before or released a minute after. */
export const release: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const placement = any(rng, free(source));
  if (!placement) return null;
  const { activity, start } = placement;
  const released = (minute: number): Problem =>
    changing(problem, activity, (old) => ({ ...old, release: minute }));
  const before = { problem: released(start), plan };
  const after =
    start > 0 && rng.below(2) === 0
      ? { problem: before.problem, plan: placing(plan, moved(placement, -1)) }
      : { problem: released(start + 1), plan };
  return { before, after };
};

const cut = new WeakMap<Problem, Map<number, Problem>>();

/** The problem up to `end`; kept, since a yard's tables are long and all mutants of a plan share them. */
function upTo(problem: Problem, end: number): Problem {
  const known = cut.get(problem) ?? new Map<number, Problem>();
  cut.set(problem, known);
  const made: Problem = known.get(end) ?? {
    ...problem,
    horizon: end,
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
  const end = Math.max(...plan.placements.map((one) => one.finish));
  const last = any(
    rng,
    plan.placements.filter((one) => one.finish === end),
  );
  if (!last || end < 1) return null;
  const tight = upTo(problem, end);
  const late = rng.below(2) === 0 && last.segments.length > 0 ? stretched(last, 1) : moved(last, 1);
  return { before: { problem: tight, plan }, after: { problem: tight, plan: placing(plan, late) } };
};

/** Starts are forbidden up to or from the minute beside the start; then it starts there. */
export const forbiddenStart: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const placement = any(rng, free(source));
  if (!placement) return null;
  const { start } = placement;
  const length = 1 + rng.below(30);
  const earlier = start > 0 && rng.below(2) === 0;
  const span: Interval = earlier
    ? { start: Math.max(0, start - length), end: start }
    : { start: start + 1, end: start + 1 + length };
  const tight = changingMode(problem, placement, (mode) => ({ ...mode, forbiddenStarts: [span] }));
  return {
    before: { problem: tight, plan },
    after: { problem: tight, plan: placing(plan, moved(placement, earlier ? -1 : 1)) },
  };
};

/** The start or the people are set as they are, or frozen work is taken; then one is changed. */
export const fixed: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const step = rng.below(2) === 0 ? 1 : -1;
  const happened = any(
    rng,
    plan.placements.filter((one) => isFrozen(problem, one)),
  );
  if (happened && rng.below(3) === 0) {
    const wrong = rng.below(2) === 0 ? moved(happened, step) : stretched(happened, 1);
    return { before: source, after: { problem, plan: placing(plan, wrong) } };
  }
  const placement = any(rng, free(source));
  if (!placement) return null;
  const { activity, start, crew } = placement;
  const builders = crew.map((member) => member.builder);
  const setting = (wish: Partial<FixedWork>): Problem =>
    changing(problem, activity, (old) => ({
      ...old,
      fixed: { kind: 'set', start: null, finish: null, builders: null, ...wish },
    }));
  const stranger = any(
    rng,
    problem.builders.map((_, b) => b).filter((b) => !builders.includes(b)),
  );
  if (crew.length > 0 && stranger !== null && rng.below(2) === 0) {
    const tight = setting({ builders });
    const [first, ...rest] = crew;
    const swapped = { ...placement, crew: [{ ...first, builder: stranger }, ...rest] };
    return {
      before: { problem: tight, plan },
      after: { problem: tight, plan: placing(plan, swapped) },
    };
  }
  const tight = setting({ start });
  return {
    before: { problem: tight, plan },
    after: { problem: tight, plan: placing(plan, moved(placement, step)) },
  };
};
