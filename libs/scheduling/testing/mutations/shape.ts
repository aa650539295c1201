import type { Placement, Plan } from '../../model/plan.ts';
import { shuffled } from '../draw.ts';
import { any, modeOf, placing, replaced, type Mutation } from './edit.ts';

/** Out of order, half a minute late, or done by somebody who does not exist. */
export const form: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const index = rng.below(plan.placements.length);
  const placement = plan.placements[index];
  const next = plan.placements.at(index + 1);
  let changed: Plan;
  if (next && rng.below(3) === 0)
    changed = {
      ...plan,
      placements: replaced(replaced(plan.placements, index, next), index + 1, placement),
    };
  else if (rng.below(2) === 0)
    changed = placing(plan, { ...placement, start: placement.start - 0.5 });
  else
    changed = placing(plan, {
      ...placement,
      crew: [...placement.crew, { builder: problem.builders.length, demand: 0 }],
    });
  return { before: source, after: { problem, plan: changed } };
};

export const missing: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const gone = rng.below(plan.placements.length);
  const placements = plan.placements.filter((_, i) => i !== gone);
  return { before: source, after: { problem, plan: { ...plan, placements } } };
};

export const duplicate: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const twice = rng.below(plan.placements.length);
  const placements = plan.placements.flatMap((one, i) => (i === twice ? [one, one] : [one]));
  return { before: source, after: { problem, plan: { ...plan, placements } } };
};

/** One activity of a branch that was not taken is placed all the same. */
export const absent: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const activity = any(
    rng,
    problem.choices.flatMap(({ branches }, c) =>
      branches.flatMap((branch, b) => (plan.branches[c] === b ? [] : branch.activities)),
    ),
  );
  if (activity === null) return null;
  const start = rng.below(problem.horizon);
  const extra: Placement = { activity, mode: 0, start, finish: start, segments: [], crew: [] };
  const placements = [...plan.placements, extra].sort((a, b) => a.activity - b.activity);
  return { before: source, after: { problem, plan: { ...plan, placements } } };
};

/** One past the last branch or before the first, or one entry too few or too many. */
export const branch: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const c = rng.below(problem.choices.length + 1);
  const way = rng.below(3);
  let branches = [...plan.branches, 0];
  if (c < problem.choices.length && way > 0)
    branches = replaced(plan.branches, c, way === 1 ? -1 : problem.choices[c].branches.length);
  else if (c < problem.choices.length) branches = plan.branches.slice(0, -1);
  return { before: source, after: { problem, plan: { ...plan, branches } } };
};

export const mode: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const [placement] = shuffled(rng, plan.placements);
  const count = problem.activities[placement.activity].modes.length;
  const wrong = { ...placement, mode: rng.below(2) === 0 ? count : -1 };
  return { before: source, after: { problem, plan: placing(plan, wrong) } };
};

/** One minute more or less in a finish or in the value of a rank. */
export const values: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const step = rng.below(2) === 0 ? 1 : -1;
  const [late, done] = plan.values;
  let changed: Plan;
  const refit = rng.below(problem.refits.length + 2);
  if (refit < problem.refits.length)
    changed = { ...plan, finishes: replaced(plan.finishes, refit, plan.finishes[refit] + step) };
  else if (refit === problem.refits.length) changed = { ...plan, values: [late + step, done] };
  else changed = { ...plan, values: [late, done + step] };
  return { before: source, after: { problem, plan: changed } };
};

/** One minute more or less from start to finish; the work was rounded up to the minute already. */
export const duration: Mutation = ({ problem, plan }, rng) => {
  const placement = any(
    rng,
    plan.placements.filter(({ activity }) => problem.activities[activity].fixed?.kind !== 'frozen'),
  );
  if (!placement) return null;
  const last = placement.segments.at(-1);
  const shorter = last !== undefined && last.end - last.start > 1 && rng.below(2) === 0;
  // Splittable work may only grow by a minute that its crew works; take one away instead.
  if (!shorter && modeOf(problem, placement).splittable) return null;
  const minutes = shorter ? -1 : 1;
  const segments =
    last === undefined
      ? [{ start: placement.start, end: placement.finish + 1 }]
      : replaced(placement.segments, placement.segments.length - 1, {
          ...last,
          end: last.end + minutes,
        });
  const wrong = { ...placement, finish: placement.finish + minutes, segments };
  return { before: { problem, plan }, after: { problem, plan: placing(plan, wrong) } };
};

/**
 * A minute cut out of a segment, a pause shortened by a minute, a piece cut in two, or a
 * start or finish one minute away from the work.
 */
export const segments: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const placement = any(
    rng,
    plan.placements.filter((one) => one.segments.length > 0),
  );
  if (!placement) return null;
  const way = rng.below(5);
  if (way >= 3) {
    const { start, finish } = placement;
    const wide = way === 3 ? { start: start - 1 } : { finish: finish + 1 };
    return { before: source, after: { problem, plan: placing(plan, { ...placement, ...wide }) } };
  }
  const index = rng.below(placement.segments.length);
  const span = placement.segments[index];
  const next = placement.segments.at(index + 1);
  let pieces = placement.segments.filter((_, i) => i !== index);
  if (way === 0 && next)
    pieces = replaced(placement.segments, index, { ...span, end: span.end + 1 });
  else if (way === 1 && span.end - span.start > 1)
    pieces = placement.segments.flatMap((old, i) =>
      i === index
        ? [
            { start: old.start, end: old.start + 1 },
            { start: old.start + 1, end: old.end },
          ]
        : [old],
    );
  else if (span.end - span.start > 1)
    pieces = replaced(placement.segments, index, { ...span, end: span.end - 1 });
  const wrong = { ...placement, segments: pieces };
  return { before: source, after: { problem, plan: placing(plan, wrong) } };
};
