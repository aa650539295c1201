import type { TaskLife } from '#live/life/life.ts';
import { workEventKinds, workEventKindSchema, workPayloadSchema } from '#live/life/life.ts';
import { lastStanding, type Reported, undo } from '#live/life/undo.ts';
import type { WorkReport } from '#persistence/live/report-work.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import type { Tx } from '../../platform/database/database.ts';
import { lifeOf, type WorkPlace } from './work-place.ts';

/** Somebody who takes back more in a row has to begin from what is so. */
const mostReports = 100;

/** The task's reports that say all of what they changed, the newest first. */
async function reportsOf(tx: Tx, yardId: string, taskId: string): Promise<Reported[]> {
  const rows = await tx.event.findMany({
    where: { yardId, subject: 'task', subjectId: taskId, kind: { in: [...workEventKinds] } },
    orderBy: { id: 'desc' },
    take: mostReports,
  });
  return rows.flatMap(({ id, kind, payload, byMemberId, at }) => {
    const read = workPayloadSchema.safeParse(payload);
    if (!read.success) return [];
    const reported = { kind: workEventKindSchema.parse(kind), payload: read.data };
    return [{ ...reported, id: String(id), by: byMemberId, writtenAt: at.getTime() }];
  });
}

const isBegun = ({ state, claim }: TaskLife): boolean =>
  claim?.status === 'working' || (state !== 'waiting' && state !== 'dropped');

/** What comes after a task that was over by the report, and has been begun since. */
function begunAfter({ state, task }: WorkPlace, last: Reported | null): string | null {
  if (last === null) return null;
  const { before, after } = last.payload;
  const ended = before.state !== after.state && (after.state === 'done' || after.state === 'redo');
  if (!ended) return null;
  const next = new Set(
    state.workload.links.filter(({ from }) => from === task.id).map(({ to }) => to),
  );
  const begun = state.workload.tasks.find((one) => next.has(one.id) && isBegun(lifeOf(state, one)));
  return begun === undefined ? null : `"${begun.name}", which follows,`;
}

/** The last report of a task taken back, as a report of its own, and which one that was. */
export async function undoReport(
  tx: Tx,
  viewer: Viewer,
  place: WorkPlace,
  { reportId, undoMinutes }: { readonly reportId: string | null; readonly undoMinutes: number },
): Promise<{ readonly report: WorkReport; readonly undone: Reported }> {
  const { yardId, memberId } = viewer;
  const { task, life } = place;
  const last = lastStanding(await reportsOf(tx, yardId, task.id));
  const now = Date.now();
  const { after, undone } = undo(life, last, {
    by: memberId,
    isForeman: viewer.roles.includes('foreman'),
    now,
    undoMinutes,
    begun: begunAfter(place, last),
  });
  const payload = {
    at: new Date(now).toISOString(),
    before: life,
    after,
    reportId,
    undoes: undone.id,
    reason: null,
  };
  const report = {
    yardId,
    taskId: task.id,
    kind: 'task-undone',
    payload,
    byMemberId: memberId,
  } as const;
  return { report, undone };
}
