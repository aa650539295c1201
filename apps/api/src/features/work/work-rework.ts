import { randomUUID } from 'node:crypto';
import type { WorkEventKind } from '#live/life/life.ts';
import { reworkFor } from '#live/rework/rework-for.ts';
import type { WorkReport } from '#persistence/live/report-work.ts';
import { makeRework, reworkPayload } from '#persistence/live/reworks.ts';
import { madeRework, tracesOf, withdrawRework } from '#persistence/live/withdraw-rework.ts';
import { loadWorkload } from '#persistence/workload/store.ts';
import { asJson } from '#persistence/rows.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import type { Tx } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import type { WorkPlace } from './work-place.ts';

/** An event that follows the report's own; to be written when all else is. */
export type Follows = (tx: Tx) => Promise<void>;

const causes: Readonly<Partial<Record<WorkEventKind, 'abandoned' | 'not-kicked'>>> = {
  'task-abandoned': 'abandoned',
  'batch-failed': 'not-kicked',
};

/** Makes the work that wet work gone wrong leads to; null where the report is of something else. */
export async function makeReworkAfter(
  tx: Tx,
  viewer: Viewer,
  { state, task }: WorkPlace,
  { kind, payload: { after } }: WorkReport,
): Promise<Follows | null> {
  const cause = causes[kind];
  if (cause === undefined) return null;
  const { yardId, memberId: byMemberId } = viewer;
  const { yard, workload } = state;
  const { startedAt, finishedAt, crew } = after;
  const failed = {
    ...task,
    state: 'redo',
    startedAt,
    finishedAt,
    crew,
    leftMinutes: null,
  } as const;
  const tasks = workload.tasks.map((one) => (one.id === task.id ? failed : one));
  const [reworkId, taskId] = [randomUUID(), task.id];
  const before = { ...workload, tasks };
  const wanted = { yard, workload: before, taskId, cause, areaM2: null, reworkId };
  const { edits, words } = reworkFor(wanted);
  const made = { yardId, reworkId, cause, snagId: null, taskId, words, edits, byMemberId };
  const lives = await makeRework(tx, made);
  const traces = tracesOf(workload, await loadWorkload(tx, yardId));
  const payload = { ...reworkPayload(made, lives), traces: asJson(traces) };
  return (later) => appendEvent(later, viewer, 'rework-made', 'task', taskId, payload);
}

/** Takes back the rework that a report led to. Throws `work.undo` where something of it has begun. */
export async function withdrawReworkOf(
  tx: Tx,
  viewer: Viewer,
  taskId: string,
  undone: { readonly id: string; readonly kind: WorkEventKind },
): Promise<Follows | null> {
  const { yardId } = viewer;
  if (causes[undone.kind] === undefined) return null;
  const event = await tx.event.findFirst({
    where: { yardId, kind: 'rework-made', subjectId: taskId, id: { gt: BigInt(undone.id) } },
    orderBy: { id: 'asc' },
  });
  const made = event && madeRework(event.payload);
  if (!made) return null;
  const lives = await withdrawRework(tx, yardId, made);
  const payload = { reworkId: made.reworkId, taskId, lives: asJson(lives) };
  return (later) => appendEvent(later, viewer, 'rework-undone', 'task', taskId, payload);
}
