import { inWords } from '#planning/decode/reading/moments.ts';
import { days as daysInWords, span } from '../words/span.ts';
import type { BoatDifference } from './boats.ts';
import type { PersonDifference } from './people.ts';
import type { Someone, TaskDifference } from './tasks.ts';
import type { WindowDifference } from './windows.ts';

interface Said {
  readonly boats: readonly BoatDifference[];
  readonly tasks: readonly TaskDifference[];
  readonly people: readonly PersonDifference[];
  readonly windows: {
    readonly lost: readonly WindowDifference[];
    readonly regained: readonly WindowDifference[];
  };
  readonly timeZone: string;
  /** ISO instant: what begins before it is told task by task. */
  readonly soon: string;
}

/** Of more tasks only the number is told. */
const MOST_TASKS = 20;

const people = new Intl.ListFormat('en');
const names = (crew: readonly Someone[]): string =>
  crew.length === 0 ? 'nobody' : people.format(crew.map(({ name }) => name));

const several = (count: number, one: string, many: string): string =>
  `${String(count)} ${count === 1 ? one : many}`;

/** `1 day lost`, `2 h gained`; the calendar's days where the day is another one. */
function change(minutes: number, days: number): string {
  const much = days === 0 ? span(minutes) : daysInWords(Math.abs(days));
  return `${much} ${minutes > 0 ? 'lost' : 'gained'}`;
}

function promiseWords({ promised, lateBefore, lateAfter }: BoatDifference): string {
  if (promised === null || lateBefore === lateAfter) return '';
  if (lateAfter === 0) return ' Its promise is kept again.';
  const late = span(Math.ceil(lateAfter));
  return lateBefore === 0
    ? ` It would be handed over ${late} later than promised.`
    : ` It would be ${late} late for its promise, instead of ${span(Math.ceil(lateBefore))}.`;
}

function boatWords(difference: BoatDifference, timeZone: string): string | null {
  const { boat, refit, before, after, minutes, days } = difference;
  const what = `${boat}, ${refit}`;
  const promise = promiseWords(difference);
  if (after === null) return `${what}: not planned any more.`;
  const at = inWords(after, timeZone);
  if (before === null || minutes === null || days === null)
    return `${what}: finished ${at}; it was not planned before.${promise}`;
  if (minutes === 0) return promise === '' ? null : `${what}: finished ${at}, as before.${promise}`;
  return `${what}: ${change(minutes, days)}, finished ${at} instead of ${inWords(before, timeZone)}.${promise}`;
}

const windowWords = (
  { kind, boat, part, from, to, closes }: WindowDifference,
  ending: string,
  timeZone: string,
): string =>
  `${boat}, ${part}: the ${kind} window after "${from}" for "${to}", which shuts ${inWords(closes, timeZone)}, ${ending}`;

/** One task as whoever does it reads it. */
function taskWords(task: TaskDifference, timeZone: string): string {
  const { kind, from, to, peopleBefore, peopleAfter } = task;
  const what = `"${task.task}" (${task.boat}, ${task.part})`;
  const begins = to === null ? '' : inWords(to, timeZone);
  const began = from === null ? '' : inWords(from, timeZone);
  const others =
    names(peopleBefore) === names(peopleAfter)
      ? ''
      : `, ${names(peopleAfter)} instead of ${names(peopleBefore)}`;
  switch (kind) {
    case 'gone':
      return `${what}: not done any more; it was planned for ${began}.`;
    case 'new':
      return `${what}: new, ${begins}, ${names(peopleAfter)}.`;
    case 'people':
      return `${what}: ${begins} as before${others}.`;
    case 'moved':
      return `${what}: ${begins} instead of ${began}${others}.`;
  }
}

function personWords({ name, moves, takes, leaves }: PersonDifference): string {
  const parts = [
    ...(moves.length === 0 ? [] : [`${several(moves.length, 'task', 'tasks')} at another time`]),
    ...(takes.length === 0 ? [] : [`${String(takes.length)} more`]),
    ...(leaves.length === 0 ? [] : [`${String(leaves.length)} fewer`]),
  ];
  return `${name}: ${parts.join(', ')}.`;
}

/** What weighs most first: boats, windows, the work of the next days, people. */
export function wordsOf({ boats, tasks, people, windows, timeZone, soon }: Said): string[] {
  const soonTasks = tasks.filter(({ from, to }) =>
    [from, to].some((when) => when !== null && when.at < soon),
  );
  const told = soonTasks.slice(0, MOST_TASKS);
  const ofBoats = boats.flatMap((boat) => boatWords(boat, timeZone) ?? []);
  return [
    ...(ofBoats.length === 0 ? ['No boat is finished at another time.'] : ofBoats),
    ...windows.lost.map((one) => windowWords(one, 'is lost.', timeZone)),
    ...windows.regained.map((one) => windowWords(one, 'is used again.', timeZone)),
    tasks.length === 0
      ? 'No task moves.'
      : `${several(tasks.length, 'task moves', 'tasks move')}, ${String(soonTasks.length)} of them in the next two days.`,
    ...told.map((task) => taskWords(task, timeZone)),
    ...(soonTasks.length > told.length
      ? [`And ${String(soonTasks.length - told.length)} more in the next two days.`]
      : []),
    ...people.map(personWords),
  ];
}
