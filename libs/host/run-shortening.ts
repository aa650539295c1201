import { Worker } from 'node:worker_threads';
import type { PlanMap } from '#planning/compile/trace/map.ts';
import type { Shortening } from '#planning/decode/explain/what-shortens.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';

/** What is asked, and how much effort goes into the plan without each thing that holds it up. */
export interface ShorteningOrder {
  readonly problem: Problem;
  readonly plan: Plan;
  readonly map: PlanMap;
  /** A refit's id; null: all of them. */
  readonly refit: string | null;
  readonly seed: number;
  readonly iterations: number;
}

/** Iterations for each thing eased: on a yard of 40 tasks 64 and 256 found the same four greatest gains. */
export const EFFORT = 160;

let last: Promise<unknown> = Promise.resolve();

function inThread(order: ShorteningOrder, signal?: AbortSignal): Promise<Shortening[] | null> {
  const { promise, resolve, reject } = Promise.withResolvers<Shortening[] | null>();
  // No hooks or flags of the parent: the thread runs the same source everywhere.
  const worker = new Worker(new URL('./shortening-thread.ts', import.meta.url), {
    workerData: order,
    execArgv: [],
  });
  worker.on('message', resolve);
  worker.on('error', reject);
  worker.on('exit', (code) => {
    reject(new Error(`The thread ended with code ${String(code)} and no answer`));
  });
  const stop = (): void => {
    reject(signal?.reason);
  };
  signal?.addEventListener('abort', stop, { once: true });
  return promise.finally(() => {
    signal?.removeEventListener('abort', stop);
    void worker.terminate();
  });
}

/**
 * `whatShortens` in a thread of its own, one at a time in a process: a plan is searched for again
 * some two dozen times, which no caller should wait for idly. Null if the problem has no such refit;
 * rejects if the thread fails, and with the signal's reason once that is aborted.
 */
export function runShortening(
  order: ShorteningOrder,
  signal?: AbortSignal,
): Promise<Shortening[] | null> {
  const next = last.then(() => {
    signal?.throwIfAborted();
    return inThread(order, signal);
  });
  last = next.catch(() => undefined);
  return next;
}
