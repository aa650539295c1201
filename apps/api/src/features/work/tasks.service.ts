import { Injectable } from '@nestjs/common';
import { DomainError, fault } from '#kernel/error.ts';
import { assertCrewFits } from '#live/life/crew.ts';
import type { TaskLife } from '#live/life/life.ts';
import { phoneMoment } from '#live/life/phone.ts';
import { lockTask } from '#persistence/live/lapse.ts';
import type { YardState } from '#persistence/live/yard-state.ts';
import { asJson } from '#persistence/rows.ts';
import { lockWork } from '#persistence/workload/store.ts';
import { circles } from '#planning/yard/circle.ts';
import type { TaskLink } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { YardStates } from '../../platform/database/yard-states.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import type { MomentOfWorkInput, ReasonInput } from './claims.contract.ts';
import type { Task, TaskPatch } from './tasks.contract.ts';
import { findTask, listTasks, setCrew, setOrder } from './tasks.store.ts';
import { nameIn, placeOf, type WorkPlace } from './work-place.ts';
import { WorkService } from './work.service.ts';
import { standsIn } from './work-stands.ts';

const dayMs = 24 * 60 * 60_000;

@Injectable()
export class TasksService {
  constructor(
    private readonly database: Database,
    private readonly states: YardStates,
    private readonly work: WorkService,
  ) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<Task>> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) =>
      listTasks(tx, yardId, page, standsIn(await this.states.at(tx, yardId), new Date())),
    );
  }

  get(viewer: Viewer, id: string): Promise<Task> {
    return this.database.inYard(viewer, (tx) => this.#shown(tx, viewer, id));
  }

  /** A film that does not cure: what comes off and is laid again is planned from now on. */
  failBatch(viewer: Viewer, taskId: string, { reason, ...times }: ReasonInput): Promise<Task> {
    const at = phoneMoment(times, new Date());
    return this.database.inYard(viewer, async (tx) => {
      const command = { kind: 'fail-batch', taskId, reason } as const;
      await this.work.actIn(tx, viewer, command, { at, reportId: null });
      return this.#shown(tx, viewer, taskId);
    });
  }

  /** Takes the task's last report back. */
  undo(viewer: Viewer, taskId: string, times: MomentOfWorkInput): Promise<Task> {
    const at = phoneMoment(times, new Date());
    return this.database.inYard(viewer, async (tx) => {
      await this.work.actIn(tx, viewer, { kind: 'undo', taskId }, { at, reportId: null });
      return this.#shown(tx, viewer, taskId);
    });
  }

  /** Fixes when, by whom or after what a task is done. Refused once it has begun. */
  fix(viewer: Viewer, id: string, revision: number, patch: TaskPatch): Promise<Task> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await lockWork(tx, yardId);
      // From here on a claim of the task waits for this change, or this has waited for the claim.
      await lockTask(tx, yardId, id);
      const place = placeOf(await this.states.at(tx, yardId), id);
      const { task, life, state } = place;
      if (life.state !== 'waiting') {
        throw new DomainError('record.in-use', `"${task.name}" is ${life.state}, not waiting.`, {
          cure: 'Fix what has not begun.',
        });
      }
      const { fixedStart } = patch;
      if (fixedStart) assertAhead(state.yard, fixedStart);
      const kept = fixedStart === undefined ? task.fixedStart : fixedStart;
      // Also where the row itself stays as it is: crew and order count as its change.
      const data = { fixedStartAt: kept === null ? null : new Date(kept) };
      changedOne(await tx.task.updateMany({ where: { yardId, id, revision }, data }));
      const after = patch.crew === undefined ? life : await this.#setCrew(tx, place, patch.crew);
      const links = await this.#setOrder(tx, place, patch.after);
      const tasks = state.workload.tasks.map((one) =>
        one.id === id ? { ...one, fixedStart: kept, crew: after.crew } : one,
      );
      const fixed = { ...state, workload: { ...state.workload, tasks, links } };
      const shown = await findTask(tx, yardId, id, standsIn(fixed, new Date()));
      const lives = life === after ? [] : [{ taskId: id, before: life, after }];
      await appendEvent(tx, viewer, 'task-fixed', 'task', id, { lives: asJson(lives) });
      return shown;
    });
  }

  /** The links of the work, as they are then. */
  async #setOrder(
    tx: Tx,
    { state, task }: WorkPlace,
    after: readonly string[] | undefined,
  ): Promise<readonly TaskLink[]> {
    const { links } = state.workload;
    if (after === undefined) return links;
    const before = [...new Set(after)];
    assertOrder(state, task.id, before);
    const made = await setOrder(tx, state.yard.id, task.id, before);
    return [...links.filter(({ to, setBy }) => to !== task.id || setBy !== 'foreman'), ...made];
  }

  async #setCrew(tx: Tx, place: WorkPlace, named: readonly string[]): Promise<TaskLife> {
    const { state, task, life } = place;
    const crew = [...new Set(named)];
    if (life.claim !== null) {
      const whom = life.claim.crew.map(nameIn(state)).join(' and ');
      throw new DomainError('claim.taken', `${whom} holds "${task.name}".`, {
        cure: 'Release that claim first.',
      });
    }
    if (crew.length > 0) assertCrewFits(state.yard, task, crew);
    await setCrew(tx, state.yard.id, task.id, crew);
    return { ...life, crew, setCrew: crew };
  }

  async #shown(tx: Tx, { yardId }: Viewer, id: string): Promise<Task> {
    return findTask(tx, yardId, id, standsIn(await this.states.at(tx, yardId), new Date()));
  }
}

/** Within the time that the yard is planned for, and not in the past of it. */
function assertAhead({ planFrom, horizonDays }: Yard, fixedStart: string): void {
  const begin = Date.parse(planFrom);
  const end = begin + horizonDays * dayMs;
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

/** The tasks exist, and none of them waits, by whatever links, for the one that comes after it. */
function assertOrder(
  { workload: { tasks, links } }: YardState,
  id: string,
  after: readonly string[],
): void {
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
