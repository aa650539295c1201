import type { ReportedSpan } from '#live/learning/evidence.ts';
import { toProcedure } from '#persistence/yard/procedures.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Procedure } from '#planning/yard/procedures.ts';
import type { Tx } from '../../platform/database/database.ts';

/** Older work was of other people and other habits; and more than can be reckoned while somebody waits. */
const mostTasks = 3000;

/** The tasks that were finished last. */
export function lastDone(tasks: readonly Task[]): Task[] {
  const at = ({ finishedAt }: Task): string => finishedAt ?? '';
  return tasks
    .filter(({ state }) => state === 'done')
    .sort((a, b) => (at(a) < at(b) ? 1 : -1))
    .slice(0, mostTasks);
}

export async function spansOf(
  tx: Tx,
  yardId: string,
  tasks: readonly Task[],
): Promise<ReportedSpan[]> {
  const rows = await tx.workSpan.findMany({
    where: { yardId, taskId: { in: tasks.map(({ id }) => id) }, endAt: { not: null } },
    orderBy: { startAt: 'asc' },
  });
  return rows.flatMap(({ taskId, startAt: start, endAt: end, crew }) =>
    end === null ? [] : [{ taskId, start, end, crew }],
  );
}

export async function allVersions(tx: Tx, yardId: string): Promise<Procedure[]> {
  const rows = await tx.procedure.findMany({ where: { yardId } });
  return rows.map(toProcedure);
}

/** Revisions of people and spaces by id. */
export interface Revisions {
  readonly people: ReadonlyMap<string, number>;
  readonly spaces: ReadonlyMap<string, number>;
}

export async function revisionsOf(tx: Tx, yardId: string): Promise<Revisions> {
  const asked = { where: { yardId }, select: { id: true, revision: true } };
  const byId = (rows: readonly { id: string; revision: number }[]): Map<string, number> =>
    new Map(rows.map(({ id, revision }) => [id, revision]));
  return {
    people: byId(await tx.member.findMany(asked)),
    spaces: byId(await tx.space.findMany(asked)),
  };
}
