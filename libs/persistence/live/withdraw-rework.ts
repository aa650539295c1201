import { isDeepStrictEqual } from 'node:util';
import { z } from 'zod';
import { DomainError } from '#kernel/error.ts';
import { lifeChangeSchema, type LifeChange } from '#live/life/life.ts';
import type { TaskChoice, TaskLink, Workload } from '#planning/workload/workload.ts';
import type { Transaction } from '../client.ts';
import { loadWorkload, saveTasks } from '../workload/store.ts';
import { loadLives } from './load-lives.ts';
import { saveLife } from './save-life.ts';

/** What a rework did to the links and choices of the work; with it, the rework can be taken back. */
interface Traces {
  /** As they were. */
  readonly removedLinks: readonly TaskLink[];
  readonly addedLinks: readonly TaskLink[];
  readonly choicesBefore: readonly TaskChoice[];
  readonly choicesAfter: readonly TaskChoice[];
}

const onlyIn = <T extends { readonly id: string }>(a: readonly T[], b: readonly T[]): T[] => {
  const other = new Map(b.map((one) => [one.id, one]));
  return a.filter((one) => !isDeepStrictEqual(other.get(one.id), one));
};

export const tracesOf = (before: Workload, after: Workload): Traces => ({
  removedLinks: onlyIn(before.links, after.links),
  addedLinks: onlyIn(after.links, before.links),
  choicesBefore: onlyIn(before.choices, after.choices),
  choicesAfter: onlyIn(after.choices, before.choices),
});

const list = z.array(z.unknown());
const payloadSchema = z.looseObject({
  reworkId: z.uuid(),
  lives: z.array(lifeChangeSchema),
  traces: z.object({
    removedLinks: list,
    addedLinks: list,
    choicesBefore: list,
    choicesAfter: list,
  } satisfies Record<keyof Traces, typeof list>),
});

/** A rework as the event of it says that it was made. */
export interface MadeRework {
  readonly reworkId: string;
  readonly lives: readonly LifeChange[];
  readonly traces: Traces;
}

/** Of the payload of a `rework-made` that carries its traces; null of any other. */
export function madeRework(payload: unknown): MadeRework | null {
  const read = payloadSchema.safeParse(payload);
  if (!read.success) return null;
  const { reworkId, lives, traces } = read.data;
  return { reworkId, lives, traces: traces as Traces };
}

const changedSince = (): DomainError =>
  new DomainError('work.undo', 'The work that it led to has changed since.', {
    cure: 'Change the work that is left as it is now.',
  });

/** What was there is there again: nothing else may have touched it meanwhile. Throws `work.undo`. */
export function withoutTraces(
  { tasks, links, choices }: Workload,
  { reworkId, traces }: MadeRework,
): Workload {
  const { removedLinks, addedLinks, choicesBefore, choicesAfter } = traces;
  const here = (
    list: readonly { readonly id: string }[],
    wanted: readonly { readonly id: string }[],
  ) =>
    wanted.every((one) =>
      isDeepStrictEqual(
        list.find(({ id }) => id === one.id),
        one,
      ),
    );
  if (!here(links, addedLinks) || !here(choices, choicesAfter)) throw changedSince();
  const [lost, changed] = [addedLinks, choicesAfter].map((all) => new Set(all.map(({ id }) => id)));
  const left = tasks.filter(({ rework }) => rework !== reworkId);
  const ids = new Set(left.map(({ id }) => id));
  // The order that the foreman has set for what goes, goes with it.
  const stays = ({ id, from, to, setBy }: TaskLink): boolean =>
    !lost.has(id) && (setBy !== 'foreman' || (ids.has(from) && ids.has(to)));
  const after = {
    tasks: left.map((task) =>
      task.coveredBy.every((id) => ids.has(id))
        ? task
        : { ...task, coveredBy: task.coveredBy.filter((id) => ids.has(id)) },
    ),
    links: [...links.filter(stays), ...removedLinks],
    choices: [...choices.filter(({ id }) => !changed.has(id)), ...choicesBefore],
  };
  if (after.links.some(({ from, to }) => !ids.has(from) || !ids.has(to))) throw changedSince();
  return after;
}

/**
 * Takes a rework back of which nothing has been begun: its tasks are dropped, what they were put
 * between waits again as it did, and what was to be done again is done. The caller holds `lockWork`
 * and writes down what is returned. Throws `work.undo`.
 */
export async function withdrawRework(
  tx: Transaction,
  yardId: string,
  made: MadeRework,
): Promise<LifeChange[]> {
  const stored = await loadWorkload(tx, yardId);
  const after = withoutTraces(stored, made);
  const added = stored.tasks.filter(({ rework }) => rework === made.reworkId).map(({ id }) => id);
  const again = made.lives.filter(
    ({ before, after: life }) => before !== null && life.state === 'redo',
  );
  const touched = [...added, ...again.map(({ taskId }) => taskId)];
  await tx.$queryRaw`SELECT 1 FROM task WHERE yard_id = ${yardId} AND id = ANY (${touched}) FOR UPDATE`;
  const lives = await loadLives(tx, yardId, touched);
  const back: LifeChange[] = [];
  for (const { taskId, before } of again) {
    const life = lives.get(taskId);
    if (before === null || life?.state !== 'redo') throw changedSince();
    back.push({ taskId, before: life, after: { ...life, state: before.state } });
  }
  const dropped = added.map((taskId): LifeChange => {
    const life = lives.get(taskId);
    if (life === undefined || life.claim !== null || life.state !== 'waiting') throw changedSince();
    return { taskId, before: life, after: { ...life, state: 'dropped' } };
  });
  const changes = [...dropped, ...back];
  for (const { taskId, before, after: life } of changes) {
    if (before === null) continue;
    const at = new Date();
    await saveLife(tx, { yardId, taskId, kind: 'task-undone', at, before, after: life });
  }
  await saveCovers(tx, yardId, stored, after);
  const states = new Map(back.map(({ taskId, after: { state } }) => [taskId, state]));
  await saveTasks(tx, yardId, {
    ...after,
    tasks: after.tasks.map((task) => (states.has(task.id) ? { ...task, state: 'done' } : task)),
  });
  return changes;
}

/** Of begun work too, whose people stay as they were set. */
async function saveCovers(
  tx: Transaction,
  yardId: string,
  stored: Workload,
  after: Workload,
): Promise<void> {
  const was = new Map(stored.tasks.map((task) => [task.id, task]));
  for (const { id, coveredBy } of after.tasks) {
    if (was.get(id)?.coveredBy.length === coveredBy.length) continue;
    const where = { yardId_id: { yardId, id } };
    await tx.task.update({ where, data: { coveredBy: [...coveredBy] }, select: { id: true } });
  }
}
