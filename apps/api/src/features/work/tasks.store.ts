import { DomainError } from '#kernel/error.ts';
import { taskStateSchema } from '#persistence/plan/sheet-shape.ts';
import type { Prisma } from '#persistence/generated/client.ts';
import { inOrder, insert, isoOf } from '#persistence/rows.ts';
import { linkRow } from '#persistence/workload/rows.ts';
import { isInOneGo, type TaskLink } from '#planning/workload/workload.ts';
import type { Tx } from '../../platform/database/database.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';
import type { Task } from './tasks.contract.ts';

const details = {
  part: { include: { refit: { include: { boat: true } } } },
  crew: { ...inOrder, include: { member: true } },
  linksIn: { where: { setBy: 'foreman' }, ...inOrder },
  spans: { orderBy: [{ startAt: 'asc' }, { id: 'asc' }] },
} as const satisfies Prisma.TaskInclude;
type Row = Prisma.TaskGetPayload<{ include: typeof details }>;

/** How a task stands by now, which its row does not say. */
export type StandsOf = (taskId: string) => Pick<Task, 'stands' | 'opensAt' | 'why'>;

export async function listTasks(
  tx: Tx,
  yardId: string,
  page: PageRequest,
  standsOf: StandsOf,
): Promise<Page<Task>> {
  const { where, ...rest } = pageArgs(page);
  const rows = await tx.task.findMany({
    where: { yardId, state: { not: 'dropped' }, ...where },
    ...rest,
    include: details,
  });
  return toPage(rows, page, (row) => show(row, standsOf));
}

export async function findTask(
  tx: Tx,
  yardId: string,
  id: string,
  standsOf: StandsOf,
): Promise<Task> {
  const row = await tx.task.findUnique({
    where: { yardId_id: { yardId, id }, state: { not: 'dropped' } },
    include: details,
  });
  if (!row) throw new DomainError('record.missing', `There is no task "${id}".`);
  return show(row, standsOf);
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
): Promise<TaskLink[]> {
  await tx.taskLink.deleteMany({ where: { yardId, toTaskId: to, setBy: 'foreman' } });
  const links = after.map((from): TaskLink => ({
    id: `foreman..${from}..${to}`,
    from,
    to,
    opens: { kind: 'after', minutes: 0 },
    closes: null,
    sweep: 'unknown',
    setBy: 'foreman',
  }));
  await insert(
    tx.taskLink,
    links.map((link) => linkRow(yardId, link)),
  );
  return links;
}

const show = ({ part, crew, linksIn, spans, ...row }: Row, standsOf: StandsOf): Task => ({
  id: row.id,
  name: row.name,
  jobId: row.jobId,
  part: part.name,
  boat: part.refit.boat.name,
  state: taskStateSchema.parse(row.state),
  ...standsOf(row.id),
  skill: row.skillId,
  minLevel: row.minLevel,
  crewMin: row.crewMin,
  crewMax: row.crewMax,
  inOneGo: isInOneGo({ ...row, material: row.materialId, skill: row.skillId }),
  startedAt: row.startedAt && isoOf(row.startedAt),
  spans: spans.map(({ claimId, startAt, endAt }) => ({
    claimId,
    start: isoOf(startAt),
    end: endAt && isoOf(endAt),
  })),
  finishedAt: row.finishedAt && isoOf(row.finishedAt),
  leftMinutes: row.leftMinutes,
  fixedStart: row.fixedStartAt && isoOf(row.fixedStartAt),
  crew: crew.map(({ member: { id, name } }) => ({ id, name })),
  after: linksIn.map(({ fromTaskId }) => fromTaskId),
  revision: row.revision,
});
