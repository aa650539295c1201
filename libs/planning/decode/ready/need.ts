import type { Task, Workload } from '../../workload/workload.ts';
import type { PlanSheet } from '../sheet.ts';
import type { Ground } from './ground.ts';
import type { Pressure } from './windows.ts';

/** When the boats need a task begun at the latest, and what says so. Minutes. */
export interface Need {
  /** Infinity: nothing says. */
  readonly by: number;
  readonly why: 'window' | 'foreman' | 'plan' | null;
}

export interface Ranked {
  readonly place: number;
  readonly need: Need;
}

/** What the published plan and the boats say of each task, by its place in the list. */
export interface Needs {
  of(place: number, task: Task, pressure: Pressure | null): Need;
  /** Negative: the first is needed before the other. */
  compare(a: Ranked, b: Ranked): number;
  /** All places, as they are needed where no window presses. */
  readonly order: readonly number[];
}

interface Entry {
  readonly latest: number;
  readonly start: number;
  readonly promised: number;
}

const less = (a: number, b: number): number => (a === b ? 0 : a - b);

function make({ yard, frame }: Ground, tasks: readonly Task[], sheet: PlanSheet | null): Needs {
  const planned = new Map(sheet?.tasks.map((task) => [task.id, task]));
  const promises = new Map(
    yard.boats.flatMap(({ refits }) =>
      refits.map(({ id, promised }) => [
        id,
        promised === null ? Infinity : frame.minuteOf(promised),
      ]),
    ),
  );
  const entries = tasks.map(({ id, refitId }): Entry => {
    const row = planned.get(id);
    const start = row === undefined ? Infinity : frame.minuteOf(row.start.at);
    const promised = promises.get(refitId) ?? Infinity;
    return { start, latest: start + (row?.floatMinutes ?? 0), promised };
  });
  const needOf = (place: number, { fixedStart }: Task, pressure: Pressure | null): Need => {
    const by: [number, Need['why']][] = [
      [pressure?.startBy ?? Infinity, 'window'],
      [fixedStart === null ? Infinity : frame.minuteOf(fixedStart), 'foreman'],
      [entries[place].latest, 'plan'],
    ];
    const [least, why] = by.reduce((first, one) => (one[0] < first[0] ? one : first));
    return { by: least, why: least === Infinity ? null : why };
  };
  const compare: Needs['compare'] = (a, b) => {
    const [first, second] = [entries[a.place], entries[b.place]];
    return (
      less(a.need.by, b.need.by) ||
      less(first.start, second.start) ||
      less(first.promised, second.promised) ||
      a.place - b.place
    );
  };
  const order = tasks
    .map((task, place) => ({ place, need: needOf(place, task, null) }))
    .sort(compare)
    .map(({ place }) => place);
  return { of: needOf, compare, order };
}

const known = new WeakMap<Ground, { readonly sheet: PlanSheet | null; readonly needs: Needs }>();

/** The same for all states of the work that have their ground and their plan in common. */
export function needsOf(ground: Ground, { tasks }: Workload, sheet: PlanSheet | null): Needs {
  const before = known.get(ground);
  if (before?.sheet === sheet) return before.needs;
  const needs = make(ground, tasks, sheet);
  known.set(ground, { sheet, needs });
  return needs;
}
