import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { Plan, SearchState, SolveResult } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import type { Standing } from '#scheduling/search/portfolio/board.ts';
import type { KeptThread } from './threads/kept.ts';
import { isOutOfMemory, limitsOf, shareOf, threadsWithin } from './threads/memory.ts';
import type { Order, Report } from './threads/messages.ts';
import { askToStop, isShortOfMemory, newSignals, tellShortOfMemory } from './threads/watch.ts';

export interface RunOptions {
  /** Stop after so many seconds from the call; with neither limit, `DEFAULT_SECONDS`. */
  readonly seconds?: number;
  /** Stop after so many iterations: then the result is the same on every machine. */
  readonly iterations?: number;
  readonly seed: number;
  readonly warmStart?: Plan | null;
  /** Threads at most, without influence on what so many iterations find; the cores at hand where not given. */
  readonly threads?: number;
  /** Megabytes for all threads together, `LEAST_MB` at least; no limit where not given. */
  readonly memoryMB?: number;
  /** Called with the first plan at once, then at most five times a second. */
  readonly onProgress?: (state: SearchState) => void;
  /** Ends the search; the best plan so far is the result. */
  readonly signal?: AbortSignal;
  /** Leads the run if it is free. */
  readonly kept?: KeptThread;
}

export interface RunResult extends SolveResult {
  /** Milliseconds from the call to the first plan, the thread's start included; null if there was none. */
  readonly firstPlanMs: number | null;
  /** Before which no refit can be finished, minutes; null where that was not reckoned. */
  readonly earliest: readonly number[] | null;
  /** The memory allowed was too little for all searchers: what was found is right, but more was possible. */
  readonly shortOfMemory: boolean;
}

const DEFAULT_SECONDS = 10;

/** There was no room even for a first plan. */
export class TooLittleMemory extends Error {
  constructor(memoryMB: number | null, cause: unknown) {
    const allowed = memoryMB === null ? 'The memory at hand' : `A memory of ${String(memoryMB)} MB`;
    super(`${allowed} is too little for this problem: allow it more`, { cause });
  }
}

/** So long after it has to end, in milliseconds, a thread may still answer for itself. */
const GRACE = 25;
/** The longest that a timer can wait; beyond it, it would not wait at all. */
const LONGEST = 2 ** 31 - 1;

const nothing: SolveResult = {
  status: 'unknown',
  plan: null,
  bounds: [],
  chains: [],
  floats: [],
  infeasibility: null,
  iterations: 0,
  foundAt: 0,
};

/** Whether two plans that a search told one after the other are one: a later one is better by rank. */
const isSame = (a: Plan | null, b: Plan | null): boolean =>
  a === b ||
  (a !== null && b !== null && a.values.every((value, rank) => value === b.values[rank]));

/** One first thread. */
interface Led {
  /** Rejects if a thread fails. */
  readonly result: Promise<SolveResult>;
  /** Ends it with another's answer. */
  giveUp(result: SolveResult): void;
}

function lead(
  order: Order,
  tell: (report: Exclude<Report, { kind: 'result' }>) => void,
  kept: KeptThread | null = null,
): Led {
  const free = kept?.take(order.memoryMB) ?? null;
  // No hooks or flags of the parent: the thread runs the same source everywhere.
  const worker =
    free ??
    new Worker(new URL('./threads/entry.ts', import.meta.url), {
      workerData: order,
      execArgv: [],
      ...limitsOf(order.memoryMB),
    });
  const { promise, resolve, reject } = Promise.withResolvers<SolveResult>();
  let isOver = false;
  const onMessage = (report: Report): void => {
    if (report.kind !== 'result') {
      tell(report);
      return;
    }
    isOver = true;
    resolve(report.result);
  };
  const onExit = (code: number): void => {
    reject(new Error(`The search thread ended with code ${String(code)} and no result`));
  };
  worker.on('message', onMessage).on('error', reject).on('exit', onExit);
  if (free !== null) worker.postMessage(order);
  return {
    result: promise.finally(() => {
      worker.off('message', onMessage).off('exit', onExit);
      if (kept !== null && free !== null) {
        worker.off('error', reject);
        kept.giveBack(worker, isOver);
      } else {
        void worker.terminate();
      }
    }),
    giveUp: resolve,
  };
}

/**
 * Solves in threads of its own, so that the caller stays responsive and can stop it.
 * Rejects if a thread fails, and with `TooLittleMemory`; infeasible, out of time and short of memory
 * are results.
 */
export async function runSolve(problem: Problem, options: RunOptions): Promise<RunResult> {
  const { seed, iterations = null, signal, warmStart = null, memoryMB = null } = options;
  const threads = threadsWithin(memoryMB, options.threads ?? availableParallelism());
  const seconds = options.seconds ?? (iterations === null ? DEFAULT_SECONDS : null);
  const startedAt = Date.now();
  const deadline = seconds === null ? null : startedAt + seconds * 1000;
  const signals = newSignals(deadline);
  const order: Order = {
    role: 'first',
    problem,
    seed,
    iterations,
    startedAt,
    deadline,
    warmStart,
    threads,
    memoryMB: shareOf(memoryMB, threads),
    allMB: memoryMB,
    signals,
    found: null,
  };
  let found: Standing | null = null;
  /** Of the plan found; null until its reasons are known. */
  let draft: SolveResult | null = null;
  let firstPlanMs: number | null = null;
  let earliest: readonly number[] | null = null;
  const led = lead(
    order,
    (report) => {
      if (report.kind === 'draft') {
        draft = report.result;
        return;
      }
      if (report.kind === 'earliest') {
        earliest = report.finishes;
        return;
      }
      const { state } = report;
      if (state.plan !== null) firstPlanMs ??= Date.now() - startedAt;
      if (!isSame(state.plan, found?.plan ?? null)) draft = null;
      found = state;
      options.onProgress?.(state);
    },
    options.kept,
  );
  let grace: NodeJS.Timeout | null = null;
  /** A thread in the middle of a long step is not waited for where its answer is known. */
  const giveUpIfSilent = (): void => {
    const iterations = found?.iterations ?? 0;
    if (found === null || (found.plan === null && found.status === 'unknown'))
      led.giveUp({ ...nothing, iterations });
    else if (draft !== null) led.giveUp({ ...draft, iterations });
  };
  const stop = (): void => {
    askToStop(signals);
    grace ??= setTimeout(giveUpIfSilent, GRACE);
  };
  const end =
    deadline === null
      ? null
      : setTimeout(giveUpIfSilent, Math.min(LONGEST, deadline - startedAt + GRACE));
  if (signal?.aborted) stop();
  signal?.addEventListener('abort', stop, { once: true });
  try {
    const result = await led.result.catch((error: unknown) => {
      if (!isOutOfMemory(error)) throw error;
      if (found === null) throw new TooLittleMemory(memoryMB, error);
      tellShortOfMemory(signals);
      return draft ?? lead({ ...order, found }, () => undefined).result;
    });
    return { ...result, firstPlanMs, earliest, shortOfMemory: isShortOfMemory(signals) };
  } finally {
    signal?.removeEventListener('abort', stop);
    for (const timer of [grace, end]) if (timer !== null) clearTimeout(timer);
  }
}
