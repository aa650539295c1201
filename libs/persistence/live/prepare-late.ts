import type { Reworked } from '#live/rework/rework.ts';
import type { Workload } from '#planning/workload/workload.ts';
import type { Transaction } from '../client.ts';
import { asJson } from '../rows.ts';
import { loadWorkload } from '../workload/store.ts';
import { makeRework, reworkPayload } from './reworks.ts';
import { tracesOf } from './withdraw-rework.ts';

interface Preparing {
  readonly yardId: string;
  /** What is late. */
  readonly taskId: string;
  readonly reworkId: string;
  readonly made: Reworked;
  /** The work as it is stored. */
  readonly before: Workload;
  /** By when the task has to be begun, where that is still to come; now, where not given. */
  readonly madeAt?: Date;
}

export interface Prepared {
  /** Appends the event `rework-made`: as one of the last writes. */
  readonly tell: () => Promise<void>;
  /** The work with it. */
  readonly workload: Workload;
}

/** Adds the preparation of a late task to the work. The caller holds `lockWork`, and tells it at the end. */
export async function prepareLate(
  tx: Transaction,
  { yardId, taskId, reworkId, made: { edits, words }, before, madeAt }: Preparing,
): Promise<Prepared> {
  const made = {
    yardId,
    reworkId,
    cause: 'missed-window' as const,
    snagId: null,
    taskId,
    words,
    edits,
    byMemberId: null,
    ...(madeAt === undefined ? {} : { madeAt }),
  };
  const lives = await makeRework(tx, made);
  const workload = await loadWorkload(tx, yardId);
  // With them it can be taken back, where the work turns out to have begun in time.
  const traces = asJson(tracesOf(before, workload));
  const tell = async (): Promise<void> => {
    await tx.event.create({
      data: {
        yardId,
        byMemberId: null,
        kind: 'rework-made',
        subject: 'task',
        subjectId: taskId,
        payload: { ...reworkPayload(made, lives), traces },
      },
      select: { id: true },
    });
  };
  return { tell, workload };
}
