import { DomainError } from '#kernel/error.ts';
import type { Prisma } from '#persistence/generated/client.ts';
import { inOrder, isoOf } from '#persistence/rows.ts';
import { linkRow } from '#persistence/workload/rows.ts';
import type { Tx } from '../../platform/database/database.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';
import type { Task } from './tasks.contract.ts';

const details = {
  part: { include: { refit: { include: { boat: true } } } },
  crew: { ...inOrder, include: { member: true } },
  linksIn: { where: { setBy: 'foreman' }, ...inOrder },
} as const satisfies Prisma.TaskInclude;
type Row = Prisma.TaskGetPayload<{ include: typeof details }>;

export async function listTasks(tx: Tx, yardId: string, page: PageRequest): Promise<Page<Task>> {
  const { where, ...rest } = pageArgs(page);
  const rows = await tx.task.findMany({ where: { yardId, ...where }, ...rest, include: details });
  return toPage(rows, page, show);
}

/** The row as well, for what is judged by it. */
export async function findTask(
  tx: Tx,
  yardId: string,
  id: string,
): Promise<{ readonly row: Row; readonly task: Task }> {
  const row = await tx.task.findUnique({
    where: { yardId_id: { yardId, id } },
    include: details,
  });
  if (!row) throw new DomainError('record.missing', `There is no task "${id}".`);
  return { row, task: show(row) };
}

export async function setCrew(
  tx: Tx,
  yardId: string,
  taskId: string,
  crew: readonly string[],
): Promise<void> {
  await tx.taskCrew.deleteMany({ where: { yardId, taskId } });
  // One by one: their order is the sequence's.
  for (const memberId of crew)
    await tx.taskCrew.create({ data: { yardId, taskId, memberId, setByForeman: true } });
}

export async function setOrder(
  tx: Tx,
  yardId: string,
  to: string,
  after: readonly string[],
): Promise<void> {
  await tx.taskLink.deleteMany({ where: { yardId, toTaskId: to, setBy: 'foreman' } });
  for (const from of after) {
    const link = {
      id: `foreman..${from}..${to}`,
      from,
      to,
      opens: { kind: 'after', minutes: 0 },
      closes: null,
      sweep: 'unknown',
      setBy: 'foreman',
    } as const;
    await tx.taskLink.create({ data: linkRow(yardId, link) });
  }
}

const show = ({ part, crew, linksIn, ...row }: Row): Task => ({
  id: row.id,
  name: row.name,
  jobId: row.jobId,
  part: part.name,
  boat: part.refit.boat.name,
  state: row.state,
  skill: row.skillId,
  minLevel: row.minLevel,
  crewMin: row.crewMin,
  crewMax: row.crewMax,
  startedAt: row.startedAt && isoOf(row.startedAt),
  finishedAt: row.finishedAt && isoOf(row.finishedAt),
  fixedStart: row.fixedStartAt && isoOf(row.fixedStartAt),
  crew: crew.map(({ member: { id, name } }) => ({ id, name })),
  after: linksIn.map(({ fromTaskId }) => fromTaskId),
  revision: row.revision,
});
