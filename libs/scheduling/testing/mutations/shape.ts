import type { Placement, Plan, RankValues } from '../../model/plan.ts';
import { shuffled } from '../draw.ts';
import type { Planted } from '../planted.ts';
import { any, replaced, revalued, type Mutation } from './edit.ts';

/** Out of order, half a minute late, or done by somebody who does not exist. */
export const form: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const index = rng.below(plan.placements.length);
  const placement = plan.placements[index];
  const next = plan.placements.at(index + 1);
  const put = (wrong: Placement): Placement[] => replaced(plan.placements, index, wrong);
  let placements = put({ ...placement, start: placement.start - 0.5 });
  if (next && rng.below(3) === 0) placements = replaced(put(next), index + 1, placement);
  else if (rng.below(2) === 0)
    placements = put({
      ...placement,
      crew: [...placement.crew, { builder: problem.builders.length, demand: 0 }],
    });
  return { before: source, after: { problem, plan: { ...plan, placements } } };
};

/** The plan that claims another branch for what it does, or null where there is no choice. */
function otherBranch({ problem, plan }: Planted, c: number | null, branch: number): Planted | null {
  if (c === null) return null;
  return { problem, plan: { ...plan, branches: replaced(plan.branches, c, branch) } };
}

/** A placement left out; or a branch claimed whose activities are not placed. */
export const missing: Mutation = (source, rng) => {
  const { problem, plan } = source;
  if (rng.below(2) === 0) {
    const claims = problem.choices.flatMap(({ branches }, c) =>
      branches.flatMap((branch, b) =>
        plan.branches[c] !== b && branch.activities.length > 0 ? [{ c, b }] : [],
      ),
    );
    const claim = any(rng, claims);
    const after = claim && otherBranch(source, claim.c, claim.b);
    if (after) return { before: source, after };
  }
  const gone = rng.below(plan.placements.length);
  const placements = plan.placements.filter((_, i) => i !== gone);
  return { before: source, after: revalued(source, placements) };
};

export const duplicate: Mutation = (source, rng) => {
  const { plan } = source;
  const twice = rng.below(plan.placements.length);
  const placements = plan.placements.flatMap((one, i) => (i === twice ? [one, one] : [one]));
  return { before: source, after: { problem: source.problem, plan: { ...plan, placements } } };
};

/** One activity of a branch that was not taken is placed all the same, or another branch claimed. */
export const absent: Mutation = (source, rng) => {
  const { problem, plan } = source;
  if (rng.below(2) === 0) {
    const placed = problem.choices.flatMap(({ branches }, c) =>
      branches.length > 1 && branches[plan.branches[c]].activities.length > 0 ? [c] : [],
    );
    const c = any(rng, placed);
    const others = c === null ? [] : problem.choices[c].branches.map((_, b) => b);
    const branch = any(
      rng,
      others.filter((b) => c !== null && b !== plan.branches[c]),
    );
    const after = branch === null ? null : otherBranch(source, c, branch);
    if (after) return { before: source, after };
  }
  const activity = any(
    rng,
    problem.choices.flatMap(({ branches }, c) =>
      branches.flatMap((branch, b) => (plan.branches[c] === b ? [] : branch.activities)),
    ),
  );
  if (activity === null) return null;
  const start = rng.below(problem.horizon);
  const extra: Placement = {
    activity,
    mode: 0,
    start,
    finish: start,
    segments: [],
    crew: [],
    overtime: false,
    slot: null,
  };
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
  const placements = plan.placements.map((old) => (old === placement ? wrong : old));
  return { before: source, after: { problem, plan: { ...plan, placements } } };
};

/** One more or less in a finish or in the value of a rank. */
export const values: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const step = rng.below(2) === 0 ? 1 : -1;
  const [late, done, money, moved] = plan.values;
  const wrong: readonly RankValues[] = [
    [late + step, done, money, moved],
    [late, done + step, money, moved],
    [late, done, money + step, moved],
    [late, done, money, moved + step],
  ];
  const which = rng.below(problem.refits.length + wrong.length);
  const changed: Plan =
    which < wrong.length
      ? { ...plan, values: wrong[which] }
      : {
          ...plan,
          finishes: plan.finishes.map((finish, r) =>
            r === which - wrong.length ? finish + step : finish,
          ),
        };
  return { before: source, after: { problem, plan: changed } };
};
