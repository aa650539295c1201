import type { Placement, Plan } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { Literals, lowerOf, upperOf } from '../../propagation/literal.ts';
import { ActivityBranching } from '../learning/branching.ts';
import { LearningSearch } from '../learning/search.ts';
import { ableFor, classesOf, crewsOf, type Classes } from './model/crews.ts';
import { focusOn } from './model/focus.ts';
import { wholeInSteps } from './model/whole.ts';
import type { Stock } from './model/ground.ts';
import { finished, PIECES, SLICE, type Steps } from './model/steps.ts';
import { planOf } from './plan.ts';
import { diveOf } from './search/dive.ts';

/** Conflicts after which a plan is taken to break a rule. */
const MOST_CONFLICTS = 200;

/** Whether the mode and the people of a placement are such as the problem allows. */
function isManned(problem: Problem, classes: Classes, placement: Placement): boolean {
  const { activity, mode: m, crew } = placement;
  if (activity >= problem.activities.length) return false;
  const { modes, fixed } = problem.activities[activity];
  if (m >= modes.length) return false;
  if (fixed?.kind === 'frozen') return true;
  const mode = modes[m];
  const wanted = fixed?.builders ?? null;
  if (mode.crew.length === 0) return crew.length === 0 && (wanted?.length ?? 0) === 0;
  const people = crew.map(({ builder }) => builder);
  if (wanted !== null && !wanted.every((one) => people.includes(one))) return false;
  const able = mode.crew.map((demand, d) =>
    ableFor(
      problem,
      demand,
      crew.filter((one) => one.demand === d).map(({ builder }) => builder),
    ),
  );
  // Each serves one demand: what is left to ask is that they are enough, and that learners are taught.
  return (
    able.every((list, d) => list.length === mode.crew[d].count) &&
    crewsOf(problem, mode, able, classes, people).length > 0
  );
}

/**
 * A plan, perhaps of another problem, as a plan of this one: with its modes, people and times, if every rule
 * allows them; else null.
 */
export const entered = (problem: Problem, plan: Plan, stock: Stock): Plan | null =>
  finished(enteredInSteps(problem, plan, stock));

/** The same made in pieces. */
export function* enteredInSteps(problem: Problem, plan: Plan, stock: Stock): Steps<Plan | null> {
  const { placements, branches } = plan;
  if (branches.length !== problem.choices.length) return null;
  if (branches.some((b, c) => b < 0 || b >= problem.choices[c].branches.length)) return null;
  const classes = classesOf(problem);
  if (!placements.every((placement) => isManned(problem, classes, placement))) return null;
  const focus = focusOn(plan, new Uint8Array(problem.activities.length), 0);
  const model = yield* wholeInSteps(problem, focus, stock);
  if (!model.isManned) return null;
  const { network, works, ranks } = model;
  const literal = new Literals();
  for (const { activity, start, finish } of placements) {
    const work = works[activity];
    for (const [b, v] of [
      [lowerOf(work.start), start],
      [upperOf(work.start), -start],
      [lowerOf(work.finish), finish],
      [upperOf(work.finish), -finish],
    ]) {
      literal.clear();
      literal.add(b, v);
      if (!network.require(literal)) return null;
    }
  }
  yield;
  const quiet = ranks.filter((x) => x !== null);
  const dive = diveOf(model, { values: null });
  const branching = new ActivityBranching(network, { dive, quiet, phase: 'followed' });
  const search = new LearningSearch(network, branching, { objective: null });
  while (search.conflicts < MOST_CONFLICTS) {
    const event = search.advance(SLICE);
    if (event === 'solution') return planOf(model, search.values);
    if (event !== 'open' && event !== 'conflict') return null;
    yield PIECES;
  }
  return null;
}
