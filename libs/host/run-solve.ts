import { Worker } from 'node:worker_threads';
import type { Plan, SearchState, SolveResult } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import type { Order, Report } from './messages.ts';

export interface RunOptions {
  /** Stop after so many seconds from the call; with neither limit, `DEFAULT_SECONDS`. */
  readonly seconds?: number;
  /** Stop after so many iterations: then the result is the same on every machine. */
  readonly iterations?: number;
  readonly seed: number;
  readonly warmStart?: Plan | null;
  /** Called with the first plan at once, then at most five times a second. */
  readonly onProgress?: (state: SearchState) => void;
  /** Ends the search; the best plan so far is the result. */
  readonly signal?: AbortSignal;
}

export interface RunResult extends SolveResult {
  /** Milliseconds from the call to the first plan, the thread's start included; null if there was none. */
  readonly firstPlanMs: number | null;
}

const DEFAULT_SECONDS = 10;

/**
 * Solves in a thread of its own, so that the caller stays responsive and can stop it.
 * Rejects only if the thread fails; infeasible and out of time are results.
 */
export function runSolve(problem: Problem, options: RunOptions): Promise<RunResult> {
  const { seed, iterations = null, signal, onProgress, warmStart = null } = options;
  const seconds = options.seconds ?? (iterations === null ? DEFAULT_SECONDS : null);
  const startedAt = Date.now();
  const order: Order = {
    problem,
    seed,
    iterations,
    startedAt,
    deadline: seconds === null ? null : startedAt + seconds * 1000,
    warmStart,
    stop: new Int32Array(new SharedArrayBuffer(4)),
  };
  const stop = (): void => {
    Atomics.store(order.stop, 0, 1);
  };
  if (signal?.aborted) stop();
  // No hooks or flags of the parent: the thread runs the same source everywhere.
  const worker = new Worker(new URL('./solve-thread.ts', import.meta.url), {
    workerData: order,
    execArgv: [],
  });
  signal?.addEventListener('abort', stop, { once: true });
  return new Promise<RunResult>((resolve, reject) => {
    worker.on('message', (report: Report) => {
      if (report.kind === 'progress') onProgress?.(report.state);
      else resolve({ ...report.result, firstPlanMs: report.firstPlanMs });
    });
    worker.on('error', reject);
    worker.on('exit', (code) => {
      reject(new Error(`The search thread ended with code ${String(code)} and no result`));
    });
  }).finally(() => {
    signal?.removeEventListener('abort', stop);
    return worker.terminate();
  });
}
