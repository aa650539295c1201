import type { Placement, Plan } from '#scheduling/model/plan.ts';
import type { Interval, Problem } from '#scheduling/model/problem.ts';
import type { Way } from './ways/ways.ts';

/** What the model prints: ways and starts by activity (0: absent), branches from 1, two ranks. */
export interface Solution {
  readonly ways: readonly number[];
  readonly starts: readonly number[];
  readonly branches: readonly number[];
  readonly worth: readonly [number, number];
}

export function readSolution(output: string): Solution {
  const [ways, starts, branches, worth] = JSON.parse(output) as number[][];
  return { ways, starts, branches: branches.slice(0, -1), worth: [worth[0], worth[1]] };
}

/** The open minutes from start to finish as spans; one span where there are no pauses. */
function segments(open: Way['open'], start: number, finish: number): Interval[] {
  if (start === finish) return [];
  if (open === null) return [{ start, end: finish }];
  const spans: { start: number; end: number }[] = [];
  for (let at = start; at < finish; at += 1) {
    if (!open[at]) continue;
    const last = spans.at(-1);
    if (last?.end === at) last.end += 1;
    else spans.push({ start: at, end: at + 1 });
  }
  return spans;
}

/** The solution as a plan but for the ranks' values, which the caller knows to count. */
export function placementsOf(ways: readonly Way[], solution: Solution): Placement[] {
  return solution.ways.flatMap((number, activity) => {
    if (number === 0) return [];
    const { mode, crew, overtime, slot, open, times } = ways[number - 1];
    const start = solution.starts[activity];
    const run = times.find((one) => one.start === start);
    if (run === undefined) throw new Error(`activity ${activity} starts at ${start} by no way`);
    const { finish } = run;
    const own = segments(open, start, finish);
    return [{ activity, mode, start, finish, segments: own, crew, overtime, slot }];
  });
}

/** The finish of each refit. */
export const finishesOf = (problem: Problem, placements: readonly Placement[]): number[] =>
  problem.refits.map((_, r) =>
    Math.max(
      0,
      ...placements.map((p) => (problem.activities[p.activity].refit === r ? p.finish : 0)),
    ),
  );

export type OraclePlan = Omit<Plan, 'values'>;
