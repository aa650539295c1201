import { hasLapsed, lapse } from '#live/life/claiming.ts';
import type { TaskLife } from '#live/life/life.ts';
import type { Transaction } from '../client.ts';
import { loadLives } from './load-lives.ts';
import { logWork, storeWork, type WorkReport } from './report-work.ts';

/** False where there is no such task. Reports of one task are done one after the other. */
export async function lockTask(tx: Transaction, yardId: string, taskId: string): Promise<boolean> {
  const rows = await tx.$queryRaw<unknown[]>`
    SELECT 1 FROM task WHERE yard_id = ${yardId} AND id = ${taskId} FOR NO KEY UPDATE`;
  return rows.length > 0;
}

/** That an open claim is over, which it was from `lapsesAt` on. */
export function lapseReport(
  yardId: string,
  taskId: string,
  before: TaskLife,
  now: string,
): WorkReport {
  const { after, kind } = lapse(before);
  const at = before.claim?.lapsesAt ?? now;
  const payload = { at, before, after, reportId: null, undoes: null, reason: null };
  return { yardId, taskId, kind, payload, byMemberId: null };
}

/** Lets a claim of the task lapse that is due; true where it did. */
export async function lapseIfDue(
  tx: Transaction,
  yardId: string,
  taskId: string,
  now: Date,
): Promise<boolean> {
  if (!(await lockTask(tx, yardId, taskId))) return false;
  const life = (await loadLives(tx, yardId, [taskId])).get(taskId);
  if (life === undefined || !hasLapsed(life, now.toISOString())) return false;
  const report = lapseReport(yardId, taskId, life, now.toISOString());
  await storeWork(tx, report);
  await logWork(tx, report);
  return true;
}
