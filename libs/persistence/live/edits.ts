import { isDeepStrictEqual } from 'node:util';
import { applyEdits, type Edited } from '#live/edits/apply.ts';
import type { WorkEdits } from '#live/edits/edits.ts';
import { untouched, type LifeChange, type TaskLife } from '#live/life/life.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { Transaction } from '../client.ts';
import { asJson } from '../rows.ts';
import { loadPinnedYard } from '../workload/pinned.ts';
import { loadWorkload, saveTasks } from '../workload/store.ts';
import { partRow } from '../yard/boats.ts';
import { saveJobs } from '../yard/jobs.ts';
import { saveLayers } from '../yard/layers.ts';
import { loadLives } from './load-lives.ts';

/** What `applyEdits` takes: the work there is, and the yard whose jobs keep their procedures' versions. */
export async function loadForEdits(tx: Transaction, yardId: string): Promise<Edited> {
  const yard = await loadPinnedYard(tx, yardId);
  return { yard, workload: await loadWorkload(tx, yardId) };
}

/**
 * Makes the stored yard and its work what `applyEdits` makes of them. The caller holds `lockWork`, and
 * writes down what is returned: how each task stood that is dropped, done again or new, and how it
 * stands. A claim that nobody has started ends with the task it was for. Throws as `applyEdits` does,
 * before anything is written.
 */
export async function saveEdits(
  tx: Transaction,
  yardId: string,
  edits: WorkEdits,
): Promise<LifeChange[]> {
  const before = await loadForEdits(tx, yardId);
  const after = applyEdits(before.yard, before.workload, edits);
  await saveParts(tx, yardId, after.yard, edits);

  const old = new Map(before.workload.tasks.map((task) => [task.id, task]));
  const now = new Map(after.workload.tasks.map((task) => [task.id, task]));
  const gone = [...old.keys()].filter((id) => !now.has(id));
  const redo = [...now.values()].filter(
    ({ id, state }) => state === 'redo' && old.get(id)?.state === 'done',
  );
  const changed = [...gone, ...redo.map(({ id }) => id)];
  // Whoever claims one of them holds its row, not the yard's.
  await tx.$queryRaw`SELECT 1 FROM task WHERE yard_id = ${yardId} AND id = ANY (${changed}) FOR UPDATE`;
  const lives = await loadLives(tx, yardId, changed);
  await dropTasks(tx, yardId, gone);
  await tx.task.updateMany({
    where: { yardId, id: { in: redo.map(({ id }) => id) } },
    data: { state: 'redo' },
  });
  for (const task of now.values()) {
    const was = old.get(task.id);
    if (was !== undefined && was.state !== 'waiting') await saveEnds(tx, yardId, was, task);
  }
  await saveTasks(tx, yardId, after.workload);
  return [
    ...gone.map((id) => changeOf(id, lives, { state: 'dropped', claim: null })),
    ...redo.map(({ id }) => changeOf(id, lives, { state: 'redo' })),
    ...[...now.values()]
      .filter(({ id }) => !old.has(id))
      .map(({ id, crew }): LifeChange => ({ taskId: id, before: null, after: untouched(crew) })),
  ];
}

function changeOf(
  taskId: string,
  lives: ReadonlyMap<string, TaskLife>,
  change: Partial<TaskLife>,
): LifeChange {
  const before = lives.get(taskId) ?? untouched();
  return { taskId, before, after: { ...before, ...change } };
}

async function saveParts(
  tx: Transaction,
  yardId: string,
  { boats }: Yard,
  { resize, addParts }: WorkEdits,
): Promise<void> {
  const sized = new Set(resize.map(({ partId }) => partId));
  const parts = boats.flatMap(({ refits }) => refits.flatMap((refit) => refit.parts));
  for (const { id, areaM2, edgeM, jointM } of parts) {
    if (!sized.has(id)) continue;
    await tx.part.update({
      where: { yardId_id: { yardId, id } },
      data: { areaM2, edgeM, jointM },
    });
  }
  for (const { refitId, part } of addParts) {
    await tx.part.create({ data: partRow(yardId, refitId, part) });
    await saveLayers(tx, yardId, [part]);
    await saveJobs(tx, yardId, [part]);
  }
}

async function dropTasks(tx: Transaction, yardId: string, gone: readonly string[]): Promise<void> {
  if (gone.length === 0) return;
  const taskId = { in: [...gone] };
  await tx.claim.updateMany({
    where: { yardId, taskId, status: 'open' },
    data: { status: 'released', releasedAt: new Date(), lapsesAt: null },
  });
  await tx.task.updateMany({ where: { yardId, id: taskId }, data: { state: 'dropped' } });
}

/** Of begun work only what ends with tasks that are gone can change; its people stay as they were set. */
async function saveEnds(tx: Transaction, yardId: string, was: Task, task: Task): Promise<void> {
  const { id, holds, coveredBy } = task;
  if (isDeepStrictEqual([was.holds, was.coveredBy], [holds, coveredBy])) return;
  await tx.task.update({
    where: { yardId_id: { yardId, id } },
    data: { holds: asJson(holds), coveredBy: [...coveredBy] },
  });
}
