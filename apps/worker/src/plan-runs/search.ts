import { setTimeout as sleep } from 'node:timers/promises';
import { type RunResult, runSolve } from '#host/run-solve.ts';
import type { KeptThread } from '#host/threads/kept.ts';
import { inYard, service } from '#persistence/client.ts';
import type { PlanRun, PrismaClient } from '#persistence/generated/client.ts';
import { longestSeconds } from '#persistence/queue/plan-runs.ts';
import { appendRunEvent } from '#persistence/run/events.ts';
import type { Plan, SearchState } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { differs, type Progress, progressOf } from './progress.ts';

/**
 * Why a search ended before its time: the foreman wants no more of it, this process ends,
 * another worker has the run (this one was given up for dead), or nothing needs to be found.
 */
export type EndedBy = 'stop' | 'shutdown' | 'lost' | 'enough';

export interface Searched {
  readonly result: RunResult;
  readonly endedBy: EndedBy | null;
}

export interface SearchSurroundings {
  readonly prisma: PrismaClient;
  readonly say: (line: string) => void;
  /** Aborted when this process is to end. */
  readonly shutdown: AbortSignal;
  /** Aborted when the queue has taken the job away. */
  readonly lost: AbortSignal;
  /** Aborted where it turns out that nothing needs to be found. */
  readonly enough?: AbortSignal;
  /** It need not go on from so many milliseconds after its beginning on, once there is a plan. */
  readonly firstPlanMs?: number | null;
  /** A right plan of the problem, to begin with. */
  readonly warmStart?: Plan | null;
  /** Threads of a run; the cores at hand where not given. */
  readonly threads?: number;
  /** Megabytes of a run; null or not given: no limit. */
  readonly memoryMB?: number | null;
  /** For a run that somebody waits for. */
  readonly kept?: KeptThread;
}

/** Between two looks at the run's row, ms: progress is written, and a wish to stop is read. */
const lookMs = 250;

/** Solves the run's problem in threads, shows how it goes, and ends early where it has to. */
export async function search(
  surroundings: SearchSurroundings,
  run: PlanRun,
  problem: Problem,
): Promise<Searched> {
  const { prisma, say, shutdown, lost, enough, warmStart } = surroundings;
  const { firstPlanMs = null, threads, memoryMB = null, kept } = surroundings;
  const abort = new AbortController();
  let endedBy: EndedBy | null = null;
  const end = (by: EndedBy): void => {
    endedBy ??= by;
    abort.abort();
  };
  const onShutdown = (): void => end('shutdown');
  const onLost = (): void => end('lost');
  const onEnough = (): void => end('enough');
  shutdown.addEventListener('abort', onShutdown);
  lost.addEventListener('abort', onLost);
  enough?.addEventListener('abort', onEnough);
  if (run.stopRequestedAt !== null) end('stop');
  if (shutdown.aborted) end('shutdown');

  const begun = Date.now();
  const timers: NodeJS.Timeout[] = [];
  let state: SearchState | null = null;
  const done = new AbortController();
  const watching = watch({ prisma, say, run, problem, end, done: done.signal }, () => {
    const latest = state;
    state = null;
    return latest;
  });
  try {
    const result = await runSolve(problem, {
      seed: run.seed,
      ...limits(run),
      ...(warmStart === undefined ? {} : { warmStart }),
      ...(threads === undefined ? {} : { threads }),
      ...(memoryMB === null ? {} : { memoryMB }),
      ...(kept === undefined ? {} : { kept }),
      signal: abort.signal,
      onProgress: (latest) => {
        state = latest;
        if (firstPlanMs === null || latest.plan === null || timers.length > 0) return;
        timers.push(setTimeout(onEnough, Math.max(0, begun + firstPlanMs - Date.now())));
      },
    });
    if (result.shortOfMemory) say(`run ${run.id}: short of memory, so less was searched`);
    return { result, endedBy };
  } finally {
    done.abort();
    for (const timer of timers) clearTimeout(timer);
    shutdown.removeEventListener('abort', onShutdown);
    lost.removeEventListener('abort', onLost);
    enough?.removeEventListener('abort', onEnough);
    await watching;
  }
}

/** With iterations alone the hour is still the end: a job that never ends would be taken away. */
function limits({ seconds, iterations }: PlanRun): { seconds?: number; iterations?: number } {
  if (iterations === null) return seconds === null ? {} : { seconds };
  return { iterations, seconds: seconds ?? longestSeconds };
}

interface Watch extends Pick<SearchSurroundings, 'prisma' | 'say'> {
  readonly run: PlanRun;
  readonly problem: Problem;
  readonly end: (by: EndedBy) => void;
  readonly done: AbortSignal;
}

async function watch(
  { prisma, say, run, problem, end, done }: Watch,
  takeState: () => SearchState | null,
): Promise<void> {
  let told: Progress | null = null;
  while (!done.aborted) {
    const state = takeState();
    const progress = state && progressOf(problem, state);
    const tell = progress !== null && differs(told, progress);
    try {
      const row = await look(prisma, run, progress, tell);
      if (row === null) end('lost');
      else if (row.stopRequestedAt !== null) end('stop');
      if (tell) told = progress;
    } catch (error) {
      // The search goes on: what it finds is worth more than a missed look.
      say(`run ${run.id}: ${error instanceof Error ? error.message : String(error)}`);
    }
    await sleep(lookMs, undefined, { signal: done }).catch(() => undefined);
  }
}

/** Null once the run is no longer this try's. */
function look(
  prisma: PrismaClient,
  { yardId, id, attempts }: PlanRun,
  progress: Progress | null,
  tell: boolean,
): Promise<PlanRun | null> {
  const where = { yardId, id, attempts, status: 'running' } as const;
  return inYard(prisma, service(yardId), async (tx) => {
    if (progress === null) return tx.planRun.findFirst({ where });
    const row = (await tx.planRun.updateManyAndReturn({ where, data: progress })).at(0);
    if (row !== undefined && tell) {
      await appendRunEvent(tx, row, { kind: 'plan-run-progress', memberId: null });
    }
    return row ?? null;
  });
}
