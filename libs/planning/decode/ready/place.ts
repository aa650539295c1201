import { barriersAsLeft, takenTo } from '../../compile/site/parts.ts';
import { isToPlan } from '../../workload/standing.ts';
import type { Task, Workload } from '../../workload/workload.ts';
import type { Rows } from '../reading/rows.ts';
import type { When } from '../sheet.ts';
import { dustIn, openIn, type AirSite, type Lasting } from './air.ts';
import type { Ground } from './ground.ts';

/** What keeps a task from beginning, and until which minute, where that is known. */
export interface Obstacle {
  readonly why: string;
  readonly until: number | null;
}

/** The same as people read it. */
export interface Hindrance {
  readonly why: string;
  readonly opens: When | null;
}

/** The yard as it is at `now`; minutes from the yard's `planFrom`. What is seldom asked is made when it is. */
export interface Place extends Omit<Ground, 'structure'>, AirSite {
  readonly rows: Rows;
  /** Where done work has taken parts. */
  readonly moved: ReadonlyMap<string, string>;
  /** Barriers that are closed, after what is done. */
  readonly closed: ReadonlySet<string>;
  /** In hand now. */
  readonly working: readonly Task[];
  /** What begun work has left that dust may not reach yet, and dust that has not settled. */
  open(): readonly Lasting[];
  dust(): readonly Lasting[];
  /** Begun work that uses or keeps tools. */
  keepers(): readonly Task[];
  /** How much of each stock begun work has taken. */
  used(): ReadonlyMap<string, number>;
  /** Work on a part. */
  on(partId: string): readonly Task[];
}

function lazily<T>(make: () => T): () => T {
  let made: { readonly value: T } | null = null;
  return () => (made ??= { value: make() }).value;
}

function usedBy(tasks: readonly Task[]): ReadonlyMap<string, number> {
  const used = new Map<string, number>();
  for (const { consumes } of tasks)
    for (const { stock, amount } of consumes) used.set(stock, (used.get(stock) ?? 0) + amount);
  return used;
}

export function placeAt(ground: Ground, { tasks }: Pick<Workload, 'tasks'>, now: number): Place {
  const { structure, yard, films } = ground;
  const those = (places: readonly number[]): Task[] => places.map((k) => tasks[k]);
  const begun = (places: readonly number[]): Task[] =>
    those(places).filter((task) => !isToPlan(task));
  const place: Place = {
    ...ground,
    now,
    rows: { ...ground.rows, tasks: new Map(tasks.map((task) => [task.id, task])) },
    whereabouts: structure.whereabouts(films),
    moved: takenTo(those(structure.movers)),
    closed: new Set(
      barriersAsLeft(yard.barriers, those(structure.barriers)).flatMap(({ id, closed }) =>
        closed ? [id] : [],
      ),
    ),
    working: tasks.filter(({ state }) => state === 'working'),
    open: lazily(() => openIn(begun(structure.open), place)),
    dust: lazily(() => dustIn(begun(structure.dusty), place)),
    keepers: lazily(() => begun(structure.tools).filter(({ state }) => state !== 'redo')),
    // What was put aside has taken its share too.
    used: lazily(() =>
      usedBy(those(structure.consumers).filter(({ state }) => state !== 'waiting')),
    ),
    on: (partId) => those(structure.ofPart.get(partId) ?? []),
  };
  return place;
}

/** Where a task's part is now, or where the task is done, for one that is not on its part. */
export function spaceNow(task: Task, { moved, rows }: Pick<Place, 'moved' | 'rows'>): string {
  if (task.parts.length === 0) return task.space;
  return moved.get(task.partId) ?? rows.parts.get(task.partId)?.part.space ?? task.space;
}
