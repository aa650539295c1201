import type { Constraint } from '#scheduling/model/constraint.ts';
import type { Problem } from '#scheduling/model/problem.ts';

/** The activities that a constraint is between: the later, and the earlier where there is one. */
export function ends(problem: Problem, reason: Constraint): { from: number | null; to: number } {
  switch (reason.kind) {
    case 'lag':
      return { from: problem.lags[reason.lag].from, to: problem.lags[reason.lag].to };
    case 'crew':
    case 'release':
    case 'forbidden':
    case 'fixed':
      return { from: null, to: reason.activity };
    case 'surface':
      return { from: null, to: problem.surfaces[reason.surface].activity };
    case 'hold':
      return { from: null, to: problem.holds[reason.hold].activity };
    default:
      return { from: null, to: 0 };
  }
}
