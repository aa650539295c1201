import { Injectable } from '@nestjs/common';
import { DomainError, fault } from '#kernel/error.ts';
import { loadWorkload, lockWork } from '#persistence/workload/store.ts';
import { circles } from '#planning/yard/circle.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { claimOf } from './claims.store.ts';
import { assertCrewFits } from './crew.ts';
import type { Task, TaskPatch } from './tasks.contract.ts';
import { findTask, listTasks, setCrew, setOrder } from './tasks.store.ts';

const dayMs = 24 * 60 * 60_000;

@Injectable()
export class TasksService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<Task>> {
    return this.database.inYard(viewer, (tx) => listTasks(tx, viewer.yardId, page));
  }

  get(viewer: Viewer, id: string): Promise<Task> {
    return this.database.inYard(viewer, async (tx) => (await findTask(tx, viewer.yardId, id)).task);
  }

  /** Fixes when, by whom or after what a task is done. Refused once it has begun. */
  fix(viewer: Viewer, id: string, revision: number, patch: TaskPatch): Promise<Task> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await lockWork(tx, yardId);
      const { row, task } = await findTask(tx, yardId, id);
      if (task.state !== 'waiting') {
        throw new DomainError('record.in-use', `"${task.name}" is ${task.state}, not waiting.`, {
          cure: 'Fix what has not begun.',
        });
      }
      const { fixedStart } = patch;
      if (fixedStart) await assertAhead(tx, yardId, fixedStart);
      const data =
        fixedStart === undefined
          ? { fixedStartAt: row.fixedStartAt }
          : { fixedStartAt: fixedStart === null ? null : new Date(fixedStart) };
      // Also where the row itself stays as it is: crew and order count as its change. From here on
      // a claim of the task waits for this change, or this change has waited for the claim.
      changedOne(await tx.task.updateMany({ where: { yardId, id, revision }, data }));
      if (patch.crew !== undefined) {
        const crew = [...new Set(patch.crew)];
        await assertUnclaimed(tx, yardId, id);
        if (crew.length > 0) await assertCrewFits(tx, row, crew);
        await setCrew(tx, yardId, id, crew);
      }
      if (patch.after !== undefined) {
        const after = [...new Set(patch.after)];
        await assertOrder(tx, yardId, id, after);
        await setOrder(tx, yardId, id, after);
      }
      await appendEvent(tx, viewer, 'task-fixed', 'task', id);
      return (await findTask(tx, yardId, id)).task;
    });
  }
}

/** Within the time that the yard is planned for, and not in the past of it. */
async function assertAhead(tx: Tx, yardId: string, fixedStart: string): Promise<void> {
  const yard = await tx.yard.findUniqueOrThrow({ where: { id: yardId } });
  const begin = yard.planFrom.getTime();
  const end = begin + yard.horizonDays * dayMs;
  const now = Date.now();
  const first = now > begin && now < end ? now : begin;
  const at = Date.parse(fixedStart);
  if (at >= first && at < end) return;
  const span = `${new Date(first).toISOString()} and ${new Date(end).toISOString()}`;
  const message = `nothing can be begun then: the yard is planned between ${span}`;
  throw new DomainError('input.field', `fixedStart: ${message}`, {
    faults: [fault('input.field', 'fixedStart', message, { value: fixedStart })],
  });
}

async function assertUnclaimed(tx: Tx, yardId: string, id: string): Promise<void> {
  const claim = await claimOf(tx, yardId, id);
  if (claim === null) return;
  const whom = claim.crew.map(({ name }) => name).join(' and ');
  throw new DomainError('claim.taken', `${whom} holds "${claim.task}".`, {
    cure: 'Release that claim first.',
  });
}

/** The tasks exist, and none of them waits, by whatever links, for the one that comes after it. */
async function assertOrder(
  tx: Tx,
  yardId: string,
  id: string,
  after: readonly string[],
): Promise<void> {
  const { tasks, links } = await loadWorkload(tx, yardId);
  const index = new Map(tasks.map((task, k) => [task.id, k]));
  const unknown = after.flatMap((from, k) =>
    index.has(from)
      ? []
      : [
          fault('yard.reference', `after[${String(k)}]`, `there is no task "${from}"`, {
            value: from,
          }),
        ],
  );
  if (unknown.length > 0)
    throw new DomainError('yard.reference', unknown[0].message, { faults: unknown });
  const kept = links.filter(({ setBy, to }) => setBy !== 'foreman' || to !== id);
  const arcs = [...kept, ...after.map((from) => ({ from, to: id }))].map(
    ({ from, to }) => [index.get(from) ?? -1, index.get(to) ?? -1] as const,
  );
  const circle = circles(tasks.length, arcs).at(0);
  if (circle === undefined) return;
  const names = [...circle, circle[0]].map((k) => `"${tasks[k].name}" (${tasks[k].id})`);
  const message = `they wait for each other: ${names.join(' before ')}`;
  throw new DomainError('yard.cycle', message, {
    faults: [fault('yard.cycle', 'after', message, { value: after })],
  });
}
