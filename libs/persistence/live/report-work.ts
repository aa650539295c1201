import type { WorkEventKind, WorkPayload } from '#live/life/life.ts';
import type { Transaction } from '../client.ts';
import { asJson } from '../rows.ts';
import { saveLife } from './save-life.ts';

export interface WorkReport {
  readonly yardId: string;
  readonly taskId: string;
  readonly kind: WorkEventKind;
  readonly payload: WorkPayload;
  /** Null: the service itself. */
  readonly byMemberId: string | null;
}

/** Stores a report of work as what it changed, and nothing of the log. */
export function storeWork(
  tx: Transaction,
  { yardId, taskId, kind, payload: { at, before, after } }: WorkReport,
): Promise<void> {
  return saveLife(tx, { yardId, taskId, kind, at: new Date(at), before, after });
}

/** Writes it into the log: the last of a transaction, which holds the yard's log from here on. */
export async function logWork(
  tx: Transaction,
  { yardId, taskId, kind, payload, byMemberId }: WorkReport,
): Promise<void> {
  await tx.event.create({
    data: {
      yardId,
      byMemberId,
      kind,
      subject: 'task',
      subjectId: taskId,
      payload: asJson(payload),
    },
    select: { id: true },
  });
}
