import { setTimeout as sleep } from 'node:timers/promises';
import { z } from 'zod';
import { runSnapshotSchema } from '#persistence/run/snapshot.ts';
import { sheetSchema } from '#persistence/plan/sheet-shape.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { Service } from './service.ts';

const runSchema = z.object({
  id: z.string(),
  status: runSnapshotSchema.shape.status,
  bestFinish: runSnapshotSchema.shape.bestFinish,
  firstPlanMs: runSnapshotSchema.shape.firstPlanMs,
  planId: runSnapshotSchema.shape.planId,
  error: runSnapshotSchema.shape.error,
  why: z.array(z.string()),
  faults: z.array(z.looseObject({})),
});

const pollMs = 50;
/** What a run may take besides its search: the queue, compiling, storing. */
const aroundMs = 60_000;

/** How long the first plan took. */
export interface FirstPlanTimes {
  /** Of the search itself; null for a run from before it was kept. */
  readonly computingMs: number | null;
  /** As the caller saw it: queue, reading and storing included. */
  readonly seenMs: number;
}

export type FirstPlan =
  | { readonly planId: string; readonly firstPlan: FirstPlanTimes }
  /** `longer`: more time may find one. */
  | { readonly planId: null; readonly why: string; readonly longer: boolean };

/** Asks for a plan as any client does, waits for its end, and publishes what it gave. */
export async function planAndPublish(
  service: Service,
  yardId: string,
  seconds: number,
  signal: AbortSignal,
): Promise<FirstPlan> {
  const asked = performance.now();
  const runs = `/yards/${yardId}/plan-runs`;
  let run = await service.post(runs, { seconds, seed: 1 }, runSchema);
  let seenMs: number | null = null;
  while (run.status === 'queued' || run.status === 'running') {
    if (performance.now() - asked > seconds * 1000 + aroundMs) {
      return { planId: null, why: `the run ${run.id} is still ${run.status}`, longer: false };
    }
    await sleep(pollMs, undefined, { signal });
    run = await service.get(`${runs}/${run.id}`, runSchema);
    if (run.bestFinish !== null) seenMs ??= performance.now() - asked;
  }
  if (run.planId === null) {
    const { status, error, why, faults } = run;
    return {
      planId: null,
      why: [error ?? `the run is ${status}`, ...why].join('\n  '),
      longer: status === 'failed' && why.length === 0 && faults.length === 0,
    };
  }
  const { planId, firstPlanMs: computingMs } = run;
  seenMs ??= performance.now() - asked;
  await service.post(`/yards/${yardId}/plans/${planId}/publish`, undefined, z.object({}));
  return { planId, firstPlan: { computingMs, seenMs } };
}

const listSchema = z.object({
  items: z.array(z.object({ id: z.string(), publishedAt: z.string().nullable() })),
});

/** The published plan, or else the newest; null where there is none. */
export async function knownPlan(service: Service, yardId: string): Promise<string | null> {
  const { items } = await service.get(`/yards/${yardId}/plans?first=200`, listSchema);
  const plan = items.find(({ publishedAt }) => publishedAt !== null) ?? items.at(0);
  return plan?.id ?? null;
}

const planSchema = sheetSchema.omit({ version: true });

export async function readPlan(
  service: Service,
  yardId: string,
  planId: string,
): Promise<PlanSheet> {
  return { version: 3, ...(await service.get(`/yards/${yardId}/plans/${planId}`, planSchema)) };
}
