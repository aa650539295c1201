import { DomainError } from '#kernel/error.ts';
import type { TaskLife } from '#live/life/life.ts';
import type { StillOpen } from '#planning/decode/ready/still-open.ts';
import type { Workload } from '#planning/workload/workload.ts';
import type { Transaction } from '../client.ts';
import { preparationsAhead } from './reworks.ts';
import { madeRework, type MadeRework, withoutTraces } from './withdraw-rework.ts';

/** A window that was given up ahead: the preparation that the work has instead. */
export interface GivenUp {
  /** Whose window it was. */
  readonly taskId: string;
  /** Who begins the task by then needs no preparation; ISO. */
  readonly until: string;
  readonly made: MadeRework;
}

/** Those that have not shut by now, what shuts last first: the order in which they are withdrawn. */
export async function loadGivenUp(
  tx: Transaction,
  yardId: string,
  now: Date,
): Promise<readonly GivenUp[]> {
  const rows = await preparationsAhead(tx, yardId, now);
  if (rows.length === 0) return [];
  const events = await tx.event.findMany({
    where: {
      yardId,
      kind: 'rework-made',
      subject: 'task',
      subjectId: { in: rows.map(({ taskId }) => taskId) },
    },
    select: { payload: true },
  });
  const made = new Map(
    events
      .flatMap(({ payload }) => madeRework(payload) ?? [])
      .map((rework) => [rework.reworkId, rework]),
  );
  return rows.flatMap(({ id, taskId, madeAt }) => {
    const rework = made.get(id);
    return rework === undefined ? [] : [{ taskId, until: madeAt.toISOString(), made: rework }];
  });
}

interface Work {
  readonly workload: Workload;
  readonly lives: ReadonlyMap<string, TaskLife>;
  readonly givenUp: readonly GivenUp[];
}

/** As if those preparations of a task had never been made; null where they cannot be withdrawn. */
function openAgain(workload: Workload, taskId: string, all: readonly GivenUp[]): StillOpen | null {
  const ids = new Set(all.map(({ made }) => made.reworkId));
  const spares = workload.tasks.filter(({ rework }) => rework !== null && ids.has(rework));
  if (spares.some(({ state }) => state !== 'waiting')) return null;
  try {
    const { links } = all.reduce((before, { made }) => withoutTraces(before, made), workload);
    return {
      taskId,
      until: all[all.length - 1].until,
      links: links.filter(({ to }) => to === taskId),
      spares: spares.map(({ id }) => id),
    };
  } catch (error) {
    if (error instanceof DomainError && error.code === 'work.undo') return null;
    throw error;
  }
}

const found = new WeakMap<Workload, readonly StillOpen[]>();

/** Of work and windows as they are: the same object for the same work. */
function allOpen({ workload, givenUp }: Work): readonly StillOpen[] {
  const known = found.get(workload);
  if (known !== undefined) return known;
  const byTask = Map.groupBy(givenUp, ({ taskId }) => taskId);
  const open = [...byTask].flatMap(([id, all]) => openAgain(workload, id, all) ?? []);
  found.set(workload, open);
  return open;
}

interface Free {
  readonly which: string;
  readonly open: readonly StillOpen[];
}

/** Of one list those that are free, as last asked: what is found out for a list is found again. */
const lastFree = new WeakMap<readonly StillOpen[], Free>();

function freeOf(
  all: readonly StillOpen[],
  isFree: (one: StillOpen) => boolean,
): readonly StillOpen[] {
  const open = all.filter(isFree);
  if (open.length === all.length) return all;
  const which = open.map(({ taskId }) => taskId).join(' ');
  const last = lastFree.get(all);
  if (last?.which === which) return last.open;
  lastFree.set(all, { which, open });
  return open;
}

/**
 * The windows that were given up and are kept by whoever comes all the same: nothing of their
 * preparation is in hand. Undefined where there is none.
 */
export function stillOpen(work: Work): readonly StillOpen[] | undefined {
  if (work.givenUp.length === 0) return undefined;
  const isFree = (id: string): boolean => (work.lives.get(id)?.claim ?? null) === null;
  const free = freeOf(allOpen(work), ({ spares }) => spares.every(isFree));
  return free.length === 0 ? undefined : free;
}
