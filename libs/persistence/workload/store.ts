import { isDeepStrictEqual } from 'node:util';
import type { Task, TaskChoice, TaskLink, Workload } from '#planning/workload/workload.ts';
import type { Transaction } from '../client.ts';
import { inOrder, insert, nothingLeft } from '../rows.ts';
import {
  choiceDetails,
  linkRow,
  taskDetails,
  taskRow,
  toTask,
  toTaskChoice,
  toTaskLink,
} from './rows.ts';

async function loadTasks(tx: Transaction, yardId: string): Promise<Task[]> {
  const rows = await tx.task.findMany({
    where: { yardId, state: { not: 'dropped' } },
    ...inOrder,
    include: taskDetails,
  });
  return rows.map(toTask);
}

export async function loadWorkload(tx: Transaction, yardId: string): Promise<Workload> {
  const where = { yardId };
  const tasks = await loadTasks(tx, yardId);
  // What was dropped has lost its links and branches.
  const links = await tx.taskLink.findMany({ where, ...inOrder });
  const choices = await tx.taskChoice.findMany({ where, ...inOrder, include: choiceDetails });
  return { tasks, links: links.map(toTaskLink), choices: choices.map(toTaskChoice) };
}

/**
 * Waits for other changes of work in the yard, until this transaction ends: what is loaded after
 * it and saved undoes no start of a task, and two crews who begin at once, one with resin and one
 * with dust, do not both find the air clear. NO KEY: rows that refer to the yard go on.
 */
export async function lockWork(tx: Transaction, yardId: string): Promise<void> {
  await tx.$queryRaw`SELECT 1 FROM yard WHERE id = ${yardId} FOR NO KEY UPDATE`;
}

/**
 * Makes the stored tasks, links and choices of the yard equal to `workload`, which was made from
 * what was loaded under `lockWork`, or is the yard's first. What did not change is not written,
 * and tasks keep their revision; a task that is gone is deleted, which its claims refuse
 * (`claim_yard_id_task_id_fkey`). What is new comes after the old in order.
 */
export async function saveTasks(
  tx: Transaction,
  yardId: string,
  workload: Workload,
): Promise<void> {
  const { tasks, links, choices, ...rest } = workload;
  nothingLeft(rest);
  const before = await loadWorkload(tx, yardId);
  const sameLinks = unchanged(before.links, links);
  const sameChoices = unchanged(before.choices, choices, ({ branches }) =>
    branches.every((branch) => branch.links.every((id) => sameLinks.has(id))),
  );
  await tx.taskChoice.deleteMany({
    where: { yardId, id: { in: others(before.choices, sameChoices) } },
  });
  await tx.taskLink.deleteMany({ where: { yardId, id: { in: others(before.links, sameLinks) } } });

  const stored = new Map(before.tasks.map((task) => [task.id, task]));
  const wanted = new Set(tasks.map((task) => task.id));
  const gone = [...stored.keys()].filter((id) => !wanted.has(id));
  if (gone.length > 0) await tx.task.deleteMany({ where: { yardId, id: { in: gone } } });
  const changed = tasks.filter((task) => {
    const old = stored.get(task.id);
    return old !== undefined && !isDeepStrictEqual(old, task);
  });
  for (const task of changed) await updateTask(tx, yardId, task);
  await insertTasks(
    tx,
    yardId,
    tasks.filter((task) => !stored.has(task.id)),
  );
  await insertLinks(
    tx,
    yardId,
    links.filter(({ id }) => !sameLinks.has(id)),
  );
  await insertChoices(
    tx,
    yardId,
    choices.filter(({ id }) => !sameChoices.has(id)),
  );
}

/** The ids of those that are stored just as wanted, and of which `keeps` says so too. */
function unchanged<T extends { readonly id: string }>(
  before: readonly T[],
  wanted: readonly T[],
  keeps: (record: T) => boolean = () => true,
): ReadonlySet<string> {
  const stored = new Map(before.map((record) => [record.id, record]));
  const same = wanted.filter((record) => isDeepStrictEqual(stored.get(record.id), record));
  return new Set(same.filter(keeps).map(({ id }) => id));
}

const others = (records: readonly { readonly id: string }[], same: ReadonlySet<string>): string[] =>
  records.map(({ id }) => id).filter((id) => !same.has(id));

async function updateTask(tx: Transaction, yardId: string, task: Task): Promise<void> {
  const { id } = task;
  await tx.task.update({ where: { yardId_id: { yardId, id } }, data: taskRow(yardId, task) });
  const where = { yardId, taskId: id };
  await tx.taskTool.deleteMany({ where });
  await tx.taskCrew.deleteMany({ where });
  await insertDetails(tx, yardId, [task]);
}

async function insertTasks(tx: Transaction, yardId: string, tasks: readonly Task[]): Promise<void> {
  await insert(
    tx.task,
    tasks.map((task) => taskRow(yardId, task)),
  );
  await insertDetails(tx, yardId, tasks);
}

async function insertDetails(
  tx: Transaction,
  yardId: string,
  tasks: readonly Task[],
): Promise<void> {
  await insert(
    tx.taskTool,
    tasks.flatMap(({ id, tools }) =>
      tools.map(({ tool, count }) => ({ yardId, taskId: id, toolId: tool, count })),
    ),
  );
  await insert(
    tx.taskCrew,
    tasks.flatMap(({ id, crew, state }) =>
      // Of work that waits, a crew is the foreman's wish.
      crew.map((memberId) => ({
        yardId,
        taskId: id,
        memberId,
        setByForeman: state === 'waiting',
      })),
    ),
  );
}

async function insertLinks(
  tx: Transaction,
  yardId: string,
  links: readonly TaskLink[],
): Promise<void> {
  await insert(
    tx.taskLink,
    links.map((link) => linkRow(yardId, link)),
  );
}

async function insertChoices(
  tx: Transaction,
  yardId: string,
  choices: readonly TaskChoice[],
): Promise<void> {
  const branches = choices.flatMap((choice) =>
    choice.branches.map((branch) => ({ ...branch, choiceId: choice.id })),
  );
  await insert(
    tx.taskChoice,
    choices.map(({ id, name, partId }) => ({ yardId, id, name, partId })),
  );
  await insert(
    tx.taskBranch,
    branches.map(({ choiceId, id, name }) => ({ yardId, choiceId, id, name })),
  );
  await insert(
    tx.branchTask,
    branches.flatMap(({ choiceId, id, tasks }) =>
      tasks.map((taskId) => ({ yardId, choiceId, branchId: id, taskId })),
    ),
  );
  await insert(
    tx.branchLink,
    branches.flatMap(({ choiceId, id, links }) =>
      links.map((linkId) => ({ yardId, choiceId, branchId: id, linkId })),
    ),
  );
}
