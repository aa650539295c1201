import type { LifeChange } from '#live/life/life.ts';
import type { WorkEdits } from '#live/edits/edits.ts';
import type { ReworkCause } from '#live/rework/rework.ts';
import type { Prisma } from '../generated/client.ts';
import type { Transaction } from '../client.ts';
import { asJson } from '../rows.ts';
import { saveEdits } from './edits.ts';

interface NewRework {
  readonly yardId: string;
  /** The same that its tasks were made with. */
  readonly reworkId: string;
  readonly cause: ReworkCause;
  /** Of a snag, and of nothing else. */
  readonly snagId: string | null;
  /** What it is about: the task at fault, or the one that is late. */
  readonly taskId: string;
  readonly words: string;
  readonly edits: WorkEdits;
  /** Null: the service itself. */
  readonly byMemberId: string | null;
  /** Now, where not given. */
  readonly madeAt?: Date;
}

/**
 * Stores a rework and makes its edits. The caller holds `lockWork`, and as its last write appends
 * the event `rework-made` about the task, with `reworkPayload`. Throws as `saveEdits` does.
 */
export async function makeRework(
  tx: Transaction,
  { yardId, reworkId, cause, snagId, taskId, words, edits, byMemberId, madeAt }: NewRework,
): Promise<LifeChange[]> {
  await tx.rework.create({
    data: {
      yardId,
      id: reworkId,
      cause,
      snagId,
      taskId,
      words,
      edits: asJson(edits),
      madeById: byMemberId,
      ...(madeAt === undefined ? {} : { madeAt }),
    },
    select: { id: true },
  });
  return saveEdits(tx, yardId, edits);
}

/** Of the event `rework-made`, whose subject is the task. */
export const reworkPayload = (
  { reworkId, cause, taskId, words }: Pick<NewRework, 'reworkId' | 'cause' | 'taskId' | 'words'>,
  lives: readonly LifeChange[],
): Prisma.InputJsonObject => ({
  reworkId,
  cause,
  taskId,
  words,
  lives: lives.map((life) => asJson(life)),
});

/** Of what a rework added, something is still to be done or was: it has not been withdrawn. */
const stands = { tasks: { some: { state: { not: 'dropped' } } } } as const;

/** Which of the reworks have not been withdrawn. */
export async function standingReworks(
  tx: Transaction,
  yardId: string,
  reworkIds: readonly string[],
): Promise<ReadonlySet<string>> {
  if (reworkIds.length === 0) return new Set();
  const where = { yardId, id: { in: [...reworkIds] }, ...stands };
  const rows = await tx.rework.findMany({ where, select: { id: true } });
  return new Set(rows.map(({ id }) => id));
}

/** Preparations of a task whose window shut after a moment; the newest first. */
export async function standingPreparations(
  tx: Transaction,
  yardId: string,
  taskId: string,
  after: Date,
): Promise<string[]> {
  const rows = await tx.rework.findMany({
    where: { yardId, cause: 'missed-window', taskId, madeAt: { gt: after }, ...stands },
    orderBy: { madeAt: 'desc' },
    select: { id: true },
  });
  return rows.map(({ id }) => id);
}

/**
 * Preparations of which nothing was withdrawn that were made before the windows had shut, and by when
 * whoever begins needs none; the last first.
 */
export function preparationsAhead(
  tx: Transaction,
  yardId: string,
  now: Date,
): Promise<readonly { readonly id: string; readonly taskId: string; readonly madeAt: Date }[]> {
  return tx.rework.findMany({
    where: { yardId, cause: 'missed-window', madeAt: { gt: now }, ...stands },
    orderBy: { madeAt: 'desc' },
    select: { id: true, taskId: true, madeAt: true },
  });
}

/** The last that was added for a task whose window had shut; null where none stands. */
export function lastPreparation(
  tx: Transaction,
  yardId: string,
  taskId: string,
): Promise<{ readonly id: string; readonly words: string } | null> {
  return tx.rework.findFirst({
    where: { yardId, cause: 'missed-window', taskId, ...stands },
    orderBy: { madeAt: 'desc' },
    select: { id: true, words: true },
  });
}

/** Whether a preparation of the task that was added after a moment has been withdrawn. */
export async function hasWithdrawn(
  tx: Transaction,
  yardId: string,
  taskId: string,
  after: Date,
): Promise<boolean> {
  const made = { yardId, cause: 'missed-window', taskId, madeAt: { gt: after } };
  const row = await tx.rework.findFirst({ where: { ...made, NOT: stands }, select: { id: true } });
  return row !== null;
}
