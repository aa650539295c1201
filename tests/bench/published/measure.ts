import { runSolve } from '#host/run-solve.ts';
import { check } from '#scheduling/checker/check.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { readBenchmark } from '../../../apps/cli/solve/solveFile.ts';
import { contradiction, type Known } from '../../reference/data.ts';
import { rulesOf } from '../../reference/rules/of-file.ts';
import { asDone } from '../../reference/rules/schedule.ts';
import type { Row } from '../bench.ts';
import { drive, type Driven } from '../drive.ts';

/** What the checker or the rules of the file, played from its text, have against a plan. */
function complaint(known: Known, problem: Problem, plan: Plan | null): string | null {
  if (plan === null) return null;
  const complaints = [
    ...check(problem, plan).map(({ message }) => message),
    ...rulesOf(known.path)(asDone(problem, plan)),
  ];
  return complaints.at(0) ?? null;
}

function rowOf(known: Known, problem: Problem, driven: Driven): Row {
  const { status, plan, bounds, seconds, firstSeconds, bestSeconds, iterations } = driven;
  const makespan = plan === null ? null : plan.finishes[0];
  const bound = bounds.at(1) ?? 0;
  return {
    status,
    makespan,
    bound,
    seconds,
    firstSeconds,
    bestSeconds,
    iterations,
    known: known.status,
    lower: known.lower,
    upper: known.upper,
    wrong: contradiction(known, { status, makespan, bound }),
    broken: complaint(known, problem, plan),
  };
}

/** Reads and solves a file on this thread, times from opening it on. */
export function solveKnown(known: Known, seconds: number): Row {
  const began = performance.now();
  const problem = readBenchmark(known.path);
  return rowOf(known, problem, drive(problem, seconds, began));
}

/** The same over several threads, times from the call of the host on. */
export async function solveKnownInThreads(
  known: Known,
  seconds: number,
  threads: number,
): Promise<Row> {
  const problem = readBenchmark(known.path);
  const began = performance.now();
  const options = { seed: 1, seconds, threads };
  const result = await runSolve(problem, options);
  const { status, plan, bounds, firstPlanMs, iterations } = result;
  return rowOf(known, problem, {
    status,
    plan,
    bounds: bounds.map(({ bound }) => bound),
    seconds: (performance.now() - began) / 1000,
    firstSeconds: firstPlanMs === null ? null : firstPlanMs / 1000,
    bestSeconds: null,
    iterations,
  });
}
