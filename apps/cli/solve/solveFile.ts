import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { readSch } from '#scheduling/formats/sch.ts';
import { readSm } from '#scheduling/formats/sm.ts';
import type { Plan, SearchState, SolveStatus } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { createExact } from '#scheduling/search/exact/exact.ts';
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

/** Reads and solves one benchmark file. Throws `input.malformed`, and what reading a file throws. */
export function solveFile(path: string, limit: Limit, seed: number): Outcome {
  const begin = performance.now();
  const elapsed = (): number => (performance.now() - begin) / 1000;
  const solver = createExact(readBenchmark(path), seed, null);
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
  return {
    status: state.status,
    makespan: best === null ? null : best.finishes[0],
    bound: state.bounds[1],
    seconds: rounded(elapsed()),
    toBest: toBest === null ? null : rounded(toBest),
  };
}

/** The problem of a .sm or .sch file. */
export function readBenchmark(path: string): Problem {
  const text = readFileSync(path, 'utf8');
  return /\.sm$/i.test(path) ? readSm(text, basename(path)) : readSch(text, basename(path));
}

const rounded = (seconds: number): number => Math.round(seconds * 1000) / 1000;
