import { isDeepStrictEqual } from 'node:util';
import type { ClaimLife, TaskLife, WorkEventKind, WorkSpan } from '#live/life/life.ts';
import { sameLife } from '#live/life/undo.ts';
import type { Transaction } from '../client.ts';
import { insert } from '../rows.ts';

/** A report of work, as it is stored. */
interface LifeReport {
  readonly yardId: string;
  readonly taskId: string;
  readonly kind: WorkEventKind;
  /** When it really was. */
  readonly at: Date;
  readonly before: TaskLife;
  readonly after: TaskLife;
}

const date = (iso: string | null): Date | null => (iso === null ? null : new Date(iso));
const sameList = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((one, k) => one === b[k]);

/**
 * Writes what a report made of a task's life: what did not change is not written. The caller holds
 * the task's row, and what is stored is `before`.
 */
export async function saveLife(tx: Transaction, report: LifeReport): Promise<void> {
  if (sameLife(report.before, report.after)) return;
  // A task has one claim and one open span at a time: what ends comes first.
  await endClaim(tx, report);
  await endSpans(tx, report);
  await saveTask(tx, report);
  await saveCrew(tx, report);
  await beginClaim(tx, report);
  await beginSpans(tx, report);
}

async function saveTask(tx: Transaction, report: LifeReport): Promise<void> {
  const { yardId, taskId, before, after } = report;
  const same =
    before.state === after.state &&
    before.startedAt === after.startedAt &&
    before.finishedAt === after.finishedAt &&
    before.leftMinutes === after.leftMinutes;
  if (same) return;
  await tx.task.update({
    where: { yardId_id: { yardId, id: taskId } },
    data: {
      state: after.state,
      startedAt: date(after.startedAt),
      finishedAt: date(after.finishedAt),
      leftMinutes: after.leftMinutes,
    },
    select: { id: true },
  });
}

async function saveCrew(tx: Transaction, report: LifeReport): Promise<void> {
  const { yardId, taskId, before, after } = report;
  if (sameList(before.crew, after.crew) && sameList(before.setCrew, after.setCrew)) return;
  if (before.crew.length > 0) await tx.taskCrew.deleteMany({ where: { yardId, taskId } });
  const rows = after.crew.map((memberId) => ({
    yardId,
    taskId,
    memberId,
    setByForeman: after.setCrew.includes(memberId),
  }));
  await insert(tx.taskCrew, rows);
}

/** What becomes of the claim of a task that nobody holds any more. */
async function endClaim(tx: Transaction, report: LifeReport): Promise<void> {
  const { yardId, kind, at, before, after } = report;
  const held = before.claim;
  if (held === null || held.id === after.claim?.id) return;
  const where = { yardId_id: { yardId, id: held.id } };
  const select = { id: true } as const;
  if (kind === 'task-finished') {
    await tx.claim.update({ where, data: { status: 'finished', finishedAt: at }, select });
    return;
  }
  const status = kind === 'claim-lapsed' ? 'lapsed' : 'released';
  await tx.claim.update({ where, data: { status, releasedAt: at }, select });
}

const columns = (claim: ClaimLife) => ({
  memberId: claim.holder,
  status: claim.status,
  claimedAt: new Date(claim.claimedAt),
  startedAt: date(claim.startedAt),
  finishedAt: null,
  releasedAt: null,
  lapsesAt: date(claim.lapsesAt),
  overrideReason: claim.override?.reason ?? null,
  overrideById: claim.override?.by ?? null,
});

async function beginClaim(tx: Transaction, report: LifeReport): Promise<void> {
  const { yardId, taskId, kind, before, after } = report;
  const { claim } = after;
  if (claim === null || isDeepStrictEqual(before.claim, claim)) return;
  if (kind === 'task-claimed') {
    await tx.claim.create({
      data: { yardId, taskId, id: claim.id, ...columns(claim) },
      select: { id: true },
    });
    await insertMembers(tx, yardId, claim);
    return;
  }
  // Also one that had ended, and of which that is taken back.
  const where = { yardId_id: { yardId, id: claim.id } };
  await tx.claim.update({ where, data: columns(claim), select: { id: true } });
  if (before.claim?.id === claim.id && sameList(before.claim.crew, claim.crew)) return;
  await tx.claimMember.deleteMany({ where: { yardId, claimId: claim.id } });
  await insertMembers(tx, yardId, claim);
}

const insertMembers = (tx: Transaction, yardId: string, { id, crew }: ClaimLife): Promise<void> =>
  insert(
    tx.claimMember,
    crew.map((memberId) => ({ yardId, claimId: id, memberId })),
  );

const sameSpan = (a: WorkSpan, b: WorkSpan): boolean =>
  a.start === b.start && a.end === b.end && sameList(a.crew, b.crew);

async function endSpans(tx: Transaction, report: LifeReport): Promise<void> {
  const { yardId, before, after } = report;
  const wanted = new Map(after.spans.map((span) => [span.id, span]));
  const gone = before.spans.filter(({ id }) => !wanted.has(id)).map(({ id }) => id);
  if (gone.length > 0) await tx.workSpan.deleteMany({ where: { yardId, id: { in: gone } } });
  for (const span of before.spans) {
    const next = wanted.get(span.id);
    if (next === undefined || next.end === null || sameSpan(span, next)) continue;
    await updateSpan(tx, yardId, next);
  }
}

async function beginSpans(tx: Transaction, report: LifeReport): Promise<void> {
  const { yardId, taskId, before, after } = report;
  const known = new Map(before.spans.map((span) => [span.id, span]));
  for (const span of after.spans) {
    const old = known.get(span.id);
    if (old !== undefined) {
      if (span.end === null && !sameSpan(old, span)) await updateSpan(tx, yardId, span);
      continue;
    }
    const { id, claimId, start, end, crew } = span;
    await tx.workSpan.create({
      data: { yardId, id, taskId, claimId, startAt: new Date(start), endAt: date(end), crew },
      select: { id: true },
    });
  }
}

async function updateSpan(
  tx: Transaction,
  yardId: string,
  { id, start, end, crew }: WorkSpan,
): Promise<void> {
  await tx.workSpan.update({
    where: { yardId_id: { yardId, id } },
    data: { startAt: new Date(start), endAt: date(end), crew },
    select: { id: true },
  });
}
