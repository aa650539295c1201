import type { Task, Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { Effect } from '../edits/effect.ts';
import { placeOf } from './change-edits.ts';
import type { ChangeInput } from './change-input.ts';

const number = (value: number): string => String(Number(value.toFixed(2)));

/** `3 h 20 min of work`; builder-minutes at the nominal rate. */
function hours(minutes: number): string {
  const whole = Math.round(minutes);
  const [h, min] = [Math.floor(whole / 60), whole % 60];
  return [h > 0 ? `${String(h)} h` : '', min > 0 || h === 0 ? `${String(min)} min` : '']
    .filter((part) => part !== '')
    .join(' ');
}

const named = (tasks: readonly Task[]): string => tasks.map(({ name }) => `"${name}"`).join(', ');
const tasksWords = (count: number): string => (count === 1 ? '1 task' : `${String(count)} tasks`);
const sum = (values: readonly number[]): number =>
  values.reduce((total, value) => total + value, 0);

/** One sentence of what is wanted. */
export function changeWords(yard: Yard, input: ChangeInput): string {
  const { boat, part } = placeOf(yard, input);
  const on = `${boat.name}: `;
  if (input.kind === 'add-part') return `${on}add ${input.part.name}`;
  const name = part?.name ?? input.partId;
  if (input.kind === 'drop-part') return `${on}leave out ${name}`;
  const sizes = [
    measure('area', part?.areaM2, input.areaM2, 'm²'),
    measure('edges', part?.edgeM, input.edgeM, 'm'),
    measure('joints', part?.jointM, input.jointM, 'm'),
  ];
  return `${on}${name}: ${sizes.filter((words) => words !== '').join(', ')}`;
}

function measure(
  what: string,
  from: number | undefined,
  to: number | undefined,
  unit: string,
): string {
  if (to === undefined || to === from) return '';
  return `${what} ${number(to)} ${unit} in place of ${number(from ?? 0)} ${unit}`;
}

/** What has begun of the part, and what that means: nothing of it is undone or done anew by itself. */
function begunWords(tasks: readonly Task[], kind: 'size' | 'drop-part'): string[] {
  const over = tasks.filter(({ state }) => state === 'done');
  const under = tasks.filter(({ state }) => state === 'working' || state === 'paused');
  const lines: string[] = [];
  if (kind === 'size') {
    if (over.length > 0)
      lines.push(
        `Done at the old size, and not done again by this: ${named(over)}. Where it does not fit any more, raise a snag on it or add a job.`,
      );
    if (under.length > 0)
      lines.push(
        `Under way at the old size: ${named(under)}. Its hours stay as planned; report what is left if the new size changes it.`,
      );
    return lines;
  }
  if (over.length > 0)
    lines.push(`Done already, which stays on record and is to be paid for: ${named(over)}.`);
  if (under.length > 0)
    lines.push(
      `Under way, so it stays in the plan until somebody finishes or abandons it: ${named(under)}.`,
    );
  return lines;
}

/**
 * What a change means for the work, in the yard's words: what is sized anew, added, left out, and what
 * has begun and stays. `before` and `after` are the work without and with it.
 */
export function changeMeaning(
  input: ChangeInput,
  before: Workload,
  after: Workload,
  effect: Effect,
): string[] {
  const { added, dropped, resized } = effect;
  if (input.kind === 'add-part') {
    const total = sum(added.map(({ minutes }) => minutes));
    return added.length === 0
      ? ['It has no jobs, so there is nothing to do on it yet.']
      : [`${tasksWords(added.length)} more, ${hours(total)} of work.`];
  }
  const tasks = before.tasks.filter(({ partId }) => partId === input.partId);
  const begun = begunWords(tasks, input.kind);
  if (input.kind === 'drop-part') {
    const total = sum(dropped.map(({ minutes }) => minutes));
    const others = after.tasks.filter(
      ({ parts, partId, state }) =>
        partId !== input.partId && state === 'waiting' && parts.includes(input.partId),
    );
    return [
      dropped.length === 0
        ? 'Everything on it has begun, so there is nothing to leave out.'
        : `${tasksWords(dropped.length)} not done, ${hours(total)} of work less.`,
      ...begun,
      ...(others.length === 0
        ? []
        : [`Work on other parts takes it as well, and stays: ${named(others)}.`]),
    ];
  }
  const more = sum(resized.map(({ from, to }) => to - from));
  const rework = tasks.filter((task) => task.rework !== null && task.state === 'waiting');
  return [
    resized.length === 0
      ? 'No task that waits takes longer or shorter by these measures.'
      : `${tasksWords(resized.length)} sized anew, ${hours(Math.abs(more))} of work ${more < 0 ? 'less' : 'more'}.`,
    ...begun,
    ...(rework.length === 0
      ? []
      : [`Rework is of the area at fault and keeps its size: ${named(rework)}.`]),
  ];
}
