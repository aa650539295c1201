import { existsSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { runPortfolio } from '#host/threads/lead.ts';
import { newSignals } from '#host/threads/watch.ts';
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

/** What one search may use. */
export interface Means {
  readonly threads: number;
  /** Megabytes for each thread; null: no limit. */
  readonly memoryMB: number | null;
  /** For all threads together. */
  readonly allMB: number | null;
}

/** Watches a search go by. */
class Watch {
  private readonly begin = performance.now();
  private best: Plan | null = null;
  private toBest: number | null = null;

  elapsed(): number {
    return (performance.now() - this.begin) / 1000;
  }

  see({ plan }: SearchState): void {
    if (plan === this.best) return;
    this.best = plan;
    this.toBest = this.elapsed();
  }

  solved(problem: Problem, { status, plan, bounds }: SearchState): Solved {
    const outcome = {
      status,
      makespan: plan === null ? null : plan.finishes[0],
      bound: bounds[1].bound,
      seconds: rounded(this.elapsed()),
      toBest: this.toBest === null ? null : rounded(this.toBest),
    };
    return { outcome, problem, plan };
  }
}

/**
 * Reads and solves one benchmark file in this thread. Throws `input.malformed`, and what reading a
 * file throws.
 */
export function solveFile(path: string, limit: Limit, seed: number): Solved {
  const watch = new Watch();
  const problem = readBenchmark(path);
  const solver = create(problem, seed, null);
  let state: SearchState;
  let batch = 1;
  let done = 0;
  do {
    const before = watch.elapsed();
    state = solver.step(
      limit.kind === 'iterations' ? Math.min(batch, limit.iterations - done) : batch,
    );
    done += batch;
    watch.see(state);
    const took = 1000 * (watch.elapsed() - before);
    if (took > LOOK_MS) batch = Math.max(1, batch >> 1);
    else if (took < LOOK_MS / 2) batch = Math.min(LARGEST_BATCH, batch * 2);
  } while (
    !state.done &&
    !(limit.kind === 'iterations' ? done >= limit.iterations : watch.elapsed() >= limit.seconds)
  );
  return watch.solved(problem, state);
}

/** The same with this thread and others, the same iterations giving the same answer. */
export async function solveFileWith(
  path: string,
  limit: Limit,
  seed: number,
  means: Means,
): Promise<Solved> {
  const watch = new Watch();
  const startedAt = Date.now();
  const problem = readBenchmark(path);
  const deadline = limit.kind === 'seconds' ? startedAt + 1000 * limit.seconds : null;
  const iterations = limit.kind === 'iterations' ? limit.iterations : null;
  const signals = newSignals(deadline);
  const order = {
    role: 'first' as const,
    problem,
    seed,
    iterations,
    startedAt,
    deadline,
    warmStart: null,
    signals,
  };
  const see = (state: SearchState): void => watch.see(state);
  const state = await runPortfolio({ ...order, ...means, found: null }, see, see);
  watch.see(state);
  return watch.solved(problem, state);
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
