import { readSheet } from '#persistence/plan/sheet.ts';
import { loadWorkload } from '#persistence/workload/store.ts';
import { loadYard } from '#persistence/yard/store.ts';
import { readyList, type ReadyList } from '#planning/decode/ready/ready.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { Tx } from '../../platform/database/database.ts';

/** What may be begun at a moment, with all it was judged by. */
export interface Standing extends ReadyList {
  readonly yard: Yard;
  readonly workload: Workload;
  readonly planId: string | null;
  readonly sheet: PlanSheet | null;
}

/** Judged afresh from the database: the tasks' real times, the films they left, the published plan. */
export async function standing(tx: Tx, yardId: string, now: Date): Promise<Standing> {
  const yard = await loadYard(tx, yardId);
  const workload = await loadWorkload(tx, yardId);
  const published = await tx.publishedPlan.findUnique({
    where: { yardId },
    select: { planId: true, plan: { select: { sheet: true } } },
  });
  const sheet = published && readSheet(published.plan.sheet);
  const lists = readyList({ yard, workload, sheet, now: now.toISOString() });
  return { ...lists, yard, workload, sheet, planId: published?.planId ?? null };
}

/** Why a task may not be begun; null if it may. */
export function whyNot(standing: Standing, taskId: string): string | null {
  if (standing.ready.some((task) => task.taskId === taskId)) return null;
  const waiting = standing.waiting.find((task) => task.taskId === taskId);
  if (waiting) return waiting.why;
  const state = standing.workload.tasks.find(({ id }) => id === taskId)?.state;
  if (state === 'done') return 'it is done';
  if (state === 'working') return 'it is being done';
  return 'the plan goes another way and leaves it out';
}
