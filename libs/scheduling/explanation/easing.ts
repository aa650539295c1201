import type { Constraint } from '../model/constraint.ts';
import type { Problem } from '../model/problem.ts';
import { isDroppable, without } from '../model/without.ts';

/** How a constraint is eased: one more of the kind, or as if it were not there. */
export type Easing = 'one-more' | 'without';

/** One more who can do what the builder can, in the same hours, for the same pay. */
function withColleague(problem: Problem, builder: number): Problem {
  const one = problem.builders[builder];
  return { ...problem, builders: [...problem.builders, { ...one, id: `${one.id}+` }] };
}

const withOneMore = (problem: Problem, resource: number): Problem => ({
  ...problem,
  resources: problem.resources.map((one, r) =>
    r === resource
      ? { ...one, steps: one.steps.map((step) => ({ ...step, capacity: step.capacity + 1 })) }
      : one,
  ),
});

/** Which easing is asked about; null where nobody could: what has happened, and time that has passed. */
export function easingOf(problem: Problem, constraint: Constraint): Easing | null {
  if (constraint.kind === 'builder' || constraint.kind === 'resource') return 'one-more';
  if (constraint.kind === 'fixed' && problem.activities[constraint.activity].fixed?.kind !== 'set')
    return null;
  if (constraint.kind === 'release') {
    const { kind } = problem.activities[constraint.activity].releases[constraint.release];
    if (kind === 'now') return null;
  }
  return isDroppable(constraint) ? 'without' : null;
}

/** The problem with the constraint eased, every index as before; see `keepsPlans`. */
export function eased(problem: Problem, constraint: Constraint): Problem {
  if (constraint.kind === 'builder') return withColleague(problem, constraint.builder);
  if (constraint.kind === 'resource') return withOneMore(problem, constraint.resource);
  return without(problem, [constraint]);
}

/** Whether a plan is one of the eased problem just as it is: not where others pause, or no slot is used. */
export const keepsPlans = ({ kind }: Constraint): boolean =>
  kind !== 'calendar' && kind !== 'hours' && kind !== 'slots' && kind !== 'crew';
