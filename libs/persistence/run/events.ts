import type { Transaction } from '../client.ts';
import type { PlanRun } from '../generated/client.ts';
import { asJson } from '../rows.ts';
import { snapshotOf } from './snapshot.ts';

export const runSubject = 'plan-run';

export type RunEventKind =
  | 'plan-run-queued'
  | 'plan-run-started'
  | 'plan-run-progress'
  | 'plan-run-stopping'
  | 'plan-run-returned'
  | 'plan-run-ended';

export interface RunEvent {
  readonly kind: RunEventKind;
  /** Who did it; null for the worker. */
  readonly memberId: string | null;
  readonly planId?: string | null;
}

/** Tells what became of a run, in the transaction of the change and as its last write. */
export async function appendRunEvent(
  tx: Transaction,
  run: PlanRun,
  { kind, memberId, planId = null }: RunEvent,
): Promise<void> {
  await tx.event.create({
    data: {
      yardId: run.yardId,
      byMemberId: memberId,
      kind,
      subject: runSubject,
      subjectId: run.id,
      payload: asJson(snapshotOf(run, planId)),
    },
  });
}
