import type { PlanSheet, SheetTask, When } from '#planning/decode/sheet.ts';
import { TOLERANCE_MINUTES } from '../disturbance/tolerance.ts';
import { minutesTo } from './minutes.ts';

export interface Someone {
  readonly personId: string;
  readonly name: string;
}

export interface TaskDifference {
  readonly taskId: string;
  readonly task: string;
  readonly boatId: string;
  readonly boat: string;
  readonly part: string;
  /** `moved`: at another time, perhaps with other people; `people`: at its time with others. */
  readonly kind: 'moved' | 'people' | 'new' | 'gone';
  /** Null of what is new. */
  readonly from: When | null;
  /** Null of what is gone. */
  readonly to: When | null;
  /** Later, or (negative) earlier. */
  readonly minutes: number | null;
  /** Empty of what is new, or gone. */
  readonly peopleBefore: readonly Someone[];
  readonly peopleAfter: readonly Someone[];
}

/** Nobody can be asked any more to begin it at another time. */
export const hasBegun = ({ state }: SheetTask): boolean =>
  state !== 'waiting' && state !== 'paused';

const samePeople = (a: readonly Someone[], b: readonly Someone[]): boolean =>
  a.length === b.length && a.every(({ personId }) => b.some((one) => one.personId === personId));

const about = ({ id, name, boatId, boat, part }: SheetTask) => ({
  taskId: id,
  task: name,
  boatId,
  boat,
  part,
});

function ofBoth(before: SheetTask, after: SheetTask): TaskDifference[] {
  const minutes = minutesTo(before.start, after.start);
  const moved = Math.abs(minutes) > TOLERANCE_MINUTES;
  if (!moved && samePeople(before.crew, after.crew)) return [];
  return [
    {
      ...about(after),
      kind: moved ? 'moved' : 'people',
      from: before.start,
      to: after.start,
      minutes,
      peopleBefore: before.crew,
      peopleAfter: after.crew,
    },
  ];
}

const newTask = (task: SheetTask): TaskDifference => ({
  ...about(task),
  kind: 'new',
  from: null,
  to: task.start,
  minutes: null,
  peopleBefore: [],
  peopleAfter: task.crew,
});

const goneTask = (task: SheetTask): TaskDifference => ({
  ...about(task),
  kind: 'gone',
  from: task.start,
  to: null,
  minutes: null,
  peopleBefore: task.crew,
  peopleAfter: [],
});

const when = ({ from, to }: TaskDifference): string => to?.at ?? from?.at ?? '';

/** By when they are to begin now (of what is gone: were). */
export function taskDifferences(before: PlanSheet, after: PlanSheet): TaskDifference[] {
  const had = new Map(before.tasks.map((task) => [task.id, task]));
  const has = new Set(after.tasks.map(({ id }) => id));
  const found = [
    ...after.tasks.flatMap((task) => {
      if (hasBegun(task)) return [];
      const old = had.get(task.id);
      return old === undefined ? [newTask(task)] : ofBoth(old, task);
    }),
    ...before.tasks.flatMap((task) => (has.has(task.id) || hasBegun(task) ? [] : [goneTask(task)])),
  ];
  return found.sort((a, b) => {
    const [x, y] = [when(a), when(b)];
    return x === y ? (a.taskId < b.taskId ? -1 : 1) : x < y ? -1 : 1;
  });
}
