import { z } from 'zod';
import type { PlanRun } from '../generated/client.ts';
import { isoOf } from '../rows.ts';

export const runStatusSchema = z.enum([
  'queued',
  'running',
  'finished',
  'stopped',
  'failed',
  'infeasible',
]);
export type RunStatus = z.output<typeof runStatusSchema>;

/** Why there is a run: somebody asked for a plan, or something happened. */
export const runPurposeSchema = z.enum(['asked', 'disturbance']);

/** After these nothing happens to a run any more. */
export const isFinal = (status: RunStatus): boolean => status !== 'queued' && status !== 'running';

/**
 * A run as its followers see it: the payload of every event of a run, so that one event alone
 * tells how it stands. Lateness and finishes are weighted minutes, money is cents, disturbance a
 * weight of tasks moved against the published plan.
 */
export const runSnapshotSchema = z.strictObject({
  status: runStatusSchema,
  stopRequested: z.boolean(),
  iterations: z.int(),
  bestFinish: z.iso.datetime().nullable(),
  bestLateness: z.number().nullable(),
  bestFinishes: z.number().nullable(),
  boundLateness: z.number().nullable(),
  boundFinishes: z.number().nullable(),
  /** Null in events from before these were counted. */
  bestMoney: z.number().nullable().default(null),
  bestDisturbance: z.number().nullable().default(null),
  boundMoney: z.number().nullable().default(null),
  boundDisturbance: z.number().nullable().default(null),
  gap: z.number().nullable(),
  /** Null in events from before it was kept. */
  firstPlanMs: z.number().nullable().default(null),
  planId: z.string().nullable(),
  error: z.string().nullable(),
});
export type RunSnapshot = z.output<typeof runSnapshotSchema>;

export function snapshotOf(run: PlanRun, planId: string | null): RunSnapshot {
  return {
    status: run.status,
    stopRequested: run.stopRequestedAt !== null,
    iterations: run.iterationsDone,
    bestFinish: run.bestFinishAt && isoOf(run.bestFinishAt),
    bestLateness: run.bestLateness,
    bestFinishes: run.bestFinishes,
    boundLateness: run.boundLateness,
    boundFinishes: run.boundFinishes,
    bestMoney: run.bestMoney,
    bestDisturbance: run.bestDisturbance,
    boundMoney: run.boundMoney,
    boundDisturbance: run.boundDisturbance,
    gap: run.gap,
    firstPlanMs: run.firstPlanMs,
    planId,
    error: run.error,
  };
}
