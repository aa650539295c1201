import { holding, type ClaimLife, type TaskLife, type WorkSpan } from '#live/life/life.ts';
import type { Transaction } from '../client.ts';
import type { Prisma } from '../generated/client.ts';
import { inOrder } from '../rows.ts';

const claimDetails = { crew: inOrder } as const satisfies Prisma.ClaimInclude;
type ClaimRow = Prisma.ClaimGetPayload<{ include: typeof claimDetails }>;

const iso = (at: Date | null): string | null => at && at.toISOString();

function claimLife(row: ClaimRow): ClaimLife {
  const status = holding.find((one) => one === row.status);
  if (status === undefined) throw new Error(`a claim that is ${row.status} holds no task`);
  const { overrideReason: reason, overrideById: by } = row;
  return {
    id: row.id,
    status,
    holder: row.memberId,
    crew: row.crew.map(({ memberId }) => memberId),
    claimedAt: row.claimedAt.toISOString(),
    lapsesAt: iso(row.lapsesAt),
    startedAt: iso(row.startedAt),
    override: reason === null || by === null ? null : { reason, by },
  };
}

/** Whether anything was ever reported or set of a task. */
export const isTouched = ({ state, crew, claim, spans }: TaskLife): boolean =>
  state !== 'waiting' || crew.length > 0 || claim !== null || spans.length > 0;

/**
 * The lives of the yard's tasks as they are stored: of all that were ever touched, or of those
 * named (each that exists, touched or not).
 */
export async function loadLives(
  tx: Transaction,
  yardId: string,
  taskIds?: readonly string[],
): Promise<Map<string, TaskLife>> {
  const named = taskIds === undefined ? {} : { taskId: { in: [...taskIds] } };
  const claims = await tx.claim.findMany({
    where: { yardId, ...named, status: { in: [...holding] } },
    include: claimDetails,
  });
  const rows = await tx.workSpan.findMany({
    where: { yardId, ...named },
    orderBy: [{ startAt: 'asc' }, { id: 'asc' }],
  });
  const spans = new Map<string, WorkSpan[]>();
  for (const { id, taskId, claimId, startAt, endAt, crew } of rows) {
    const span = { id, claimId, start: startAt.toISOString(), end: iso(endAt), crew };
    const known = spans.get(taskId);
    if (known === undefined) spans.set(taskId, [span]);
    else known.push(span);
  }
  const claimOf = new Map(claims.map((claim) => [claim.taskId, claimLife(claim)]));
  const tasks = await tx.task.findMany({
    where: {
      yardId,
      ...(taskIds === undefined
        ? {
            OR: [
              { state: { not: 'waiting' } },
              { crew: { some: {} } },
              { id: { in: [...claimOf.keys(), ...spans.keys()] } },
            ],
          }
        : { id: { in: [...taskIds] } }),
    },
    select: {
      id: true,
      state: true,
      startedAt: true,
      finishedAt: true,
      leftMinutes: true,
      crew: inOrder,
    },
    ...inOrder,
  });
  return new Map(
    tasks.map((task) => [
      task.id,
      {
        state: task.state,
        startedAt: iso(task.startedAt),
        finishedAt: iso(task.finishedAt),
        leftMinutes: task.leftMinutes,
        crew: task.crew.map(({ memberId }) => memberId),
        setCrew: task.crew.flatMap(({ memberId, setByForeman }) =>
          setByForeman ? [memberId] : [],
        ),
        claim: claimOf.get(task.id) ?? null,
        spans: spans.get(task.id) ?? [],
      },
    ]),
  );
}
