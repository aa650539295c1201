import { existsSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { readProblemFile } from '#scheduling/formats/problem-file.ts';
import type { Plan, SearchState, SolveStatus } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { create } from '#scheduling/solve.ts';
import type { Limit } from './arguments.ts';

/** One line of output. Times in seconds. */
export interface Outcome {
  readonly status: SolveStatus;
  readonly makespan: number | null;
  readonly bound: number;
  /** From opening the file to the answer. */
  readonly seconds: number;
  /** When the plan was found; null without one. */
  readonly toBest: number | null;
}

/** Between looks at the clock the search should work about so long. */
const LOOK_MS = 4;
const LARGEST_BATCH = 4096;

/** The line, and the problem and plan behind it. */
export interface Solved {
  readonly outcome: Outcome;
  readonly problem: Problem;
  readonly plan: Plan | null;
}

/** Reads and solves one benchmark file. Throws `input.malformed`, and what reading a file throws. */
export function solveFile(path: string, limit: Limit, seed: number): Solved {
  const begin = performance.now();
  const elapsed = (): number => (performance.now() - begin) / 1000;
  const problem = readBenchmark(path);
  const solver = create(problem, seed, null);
  let best: Plan | null = null;
  let toBest: number | null = null;
  let state: SearchState;
  let batch = 1;
  let done = 0;
  do {
    const before = elapsed();
    state = solver.step(
      limit.kind === 'iterations' ? Math.min(batch, limit.iterations - done) : batch,
    );
    done += batch;
    const after = elapsed();
    if (state.plan !== best) {
      best = state.plan;
      toBest = after;
    }
    const took = 1000 * (after - before);
    if (took > LOOK_MS) batch = Math.max(1, batch >> 1);
    else if (took < LOOK_MS / 2) batch = Math.min(LARGEST_BATCH, batch * 2);
  } while (
    !state.done &&
    !(limit.kind === 'iterations' ? done >= limit.iterations : elapsed() >= limit.seconds)
  );
  const outcome = {
    status: state.status,
    makespan: best === null ? null : best.finishes[0],
    bound: state.bounds[1].bound,
    seconds: rounded(elapsed()),
    toBest: toBest === null ? null : rounded(toBest),
  };
  return { outcome, problem, plan: best };
}

/**
 * The problem of a benchmark file. Another file that it names is looked for from its own folder
 * and from the one around it.
 */
export function readBenchmark(path: string): Problem {
  const beside = (name: string): string => {
    const near = join(dirname(path), name);
    return readFileSync(existsSync(near) ? near : join(dirname(dirname(path)), name), 'utf8');
  };
  return readProblemFile(basename(path), readFileSync(path, 'utf8'), beside);
}

const rounded = (seconds: number): number => Math.round(seconds * 1000) / 1000;
