import { toLocal } from '#calendar/local-time.ts';
import { DomainError } from '#kernel/error.ts';
import { isoOf } from '#persistence/rows.ts';
import type { When } from '#planning/decode/sheet.ts';
import type { Tx } from '../../platform/database/database.ts';
import type { TaskHistory, ToldTask } from './task-history.contract.ts';

type WhenOf = (at: Date) => When;

/** An instant as the yard's clocks show it. */
const whenIn =
  (timeZone: string): WhenOf =>
  (at) => {
    const { date, time } = toLocal(Math.floor(at.getTime() / 60_000), timeZone);
    return { at: at.toISOString(), local: `${date}T${time}` };
  };

interface Person {
  readonly personId: string;
  readonly name: string;
}

/** Each publishing that had the task, in order. */
async function tellings(
  tx: Tx,
  yardId: string,
  taskId: string,
  when: WhenOf,
  people: (ids: readonly string[]) => Person[],
): Promise<ToldTask[]> {
  const publishings = await tx.publishing.findMany({
    where: { yardId, plan: { placements: { some: { taskId } } } },
    orderBy: [{ publishedAt: 'asc' }, { id: 'asc' }],
  });
  const placements = await tx.planPlacement.findMany({
    where: { yardId, taskId, planId: { in: publishings.map(({ planId }) => planId) } },
    include: { crew: { orderBy: { position: 'asc' } } },
  });
  const placedBy = new Map(placements.map((placed) => [placed.planId, placed]));
  return publishings.flatMap(({ planId, publishedAt, publishedById }) => {
    const placed = placedBy.get(planId);
    if (placed === undefined) return [];
    return [
      {
        planId,
        publishedAt: isoOf(publishedAt),
        publishedBy: publishedById,
        start: when(placed.startAt),
        finish: when(placed.finishAt),
        segments: placed.segmentStarts.map((start, k) => ({
          start: when(start),
          finish: when(placed.segmentEnds[k]),
        })),
        crew: people(placed.crew.map(({ memberId }) => memberId)),
      },
    ];
  });
}

const sameTelling = (a: ToldTask, b: ToldTask): boolean =>
  a.start.at === b.start.at &&
  a.finish.at === b.finish.at &&
  a.crew.map(({ personId }) => personId).join() === b.crew.map(({ personId }) => personId).join();

export async function findHistory(tx: Tx, yardId: string, id: string): Promise<TaskHistory> {
  const task = await tx.task.findUnique({
    where: { yardId_id: { yardId, id } },
    include: { spans: { orderBy: [{ startAt: 'asc' }, { id: 'asc' }] } },
  });
  if (!task) throw new DomainError('record.missing', `There is no task "${id}".`);
  const { timeZone } = await tx.yard.findUniqueOrThrow({ where: { id: yardId } });
  const members = await tx.member.findMany({ where: { yardId }, select: { id: true, name: true } });
  const names = new Map(members.map((member) => [member.id, member.name]));
  const people = (ids: readonly string[]): Person[] =>
    ids.map((personId) => ({ personId, name: names.get(personId) ?? personId }));
  const when = whenIn(timeZone);
  const again = await tx.task.findMany({
    where: { yardId, replacesId: id },
    orderBy: { position: 'asc' },
    select: { id: true },
  });
  const told = await tellings(tx, yardId, id, when, people);
  return {
    taskId: id,
    task: task.name,
    state: task.state,
    replaces: task.replacesId,
    replacedBy: again.map((one) => one.id),
    planned: told.at(0) ?? null,
    replanned: told.filter((one, k) => k > 0 && !sameTelling(told[k - 1], one)),
    actual: {
      startedAt: task.startedAt && when(task.startedAt),
      // Of running work it is an expectation.
      finishedAt: task.state === 'working' ? null : task.finishedAt && when(task.finishedAt),
      spans: task.spans.map(({ startAt, endAt, crew }) => ({
        start: when(startAt),
        finish: endAt && when(endAt),
        crew: people(crew),
      })),
    },
  };
}
