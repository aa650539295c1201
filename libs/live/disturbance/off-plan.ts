import type { PlanSheet, SheetTask } from '#planning/decode/sheet.ts';
import type { TaskLife, WorkEventKind, WorkPayload } from '../life/life.ts';
import { laterOrEarlier, span } from '../words/span.ts';
import { TOLERANCE_MINUTES } from './tolerance.ts';

const MINUTE_MS = 60_000;

const minutesFrom = (from: string, to: string): number =>
  Math.round((Date.parse(to) - Date.parse(from)) / MINUTE_MS);

/** A plan that a report is held against: people work to the published one, and were not told of the other. */
export interface HeldAgainst {
  readonly is: 'published' | 'offered';
  readonly sheet: PlanSheet;
}

/** `40 min later than planned`; null within the tolerance. */
function offBy(planned: string, real: string, asThere: string): string | null {
  const minutes = minutesFrom(planned, real);
  if (Math.abs(minutes) <= TOLERANCE_MINUTES) return null;
  return `${laterOrEarlier(minutes)} than ${asThere}`;
}

const near = (a: string, b: string): boolean => Math.abs(minutesFrom(a, b)) <= TOLERANCE_MINUTES;

const names = new Intl.ListFormat('en');

/** `by Bram instead of Cato`; null where the people are those who were planned. */
function otherPeople(
  { crew }: SheetTask,
  now: readonly string[],
  nameOf: (person: string) => string,
): string | null {
  const planned = crew.map(({ personId }) => personId);
  if (planned.length === now.length && planned.every((id) => now.includes(id))) return null;
  if (planned.length === 0 || now.length === 0) return null;
  const list = (people: readonly string[]): string => names.format(people.map(nameOf));
  return `by ${list(now)} instead of ${list(planned)}`;
}

function started(
  task: SheetTask,
  life: TaskLife,
  asThere: string,
  nameOf: (person: string) => string,
): string | null {
  // The plan was made with it begun, and knows.
  if (task.state !== 'waiting' || life.startedAt === null) return null;
  const when = offBy(task.start.at, life.startedAt, asThere);
  const whom = otherPeople(task, life.crew, nameOf);
  if (when === null && whom === null) return null;
  return ['began', when, whom].filter((words) => words !== null).join(' ');
}

function finished(task: SheetTask, life: TaskLife, asThere: string): string | null {
  if (task.state === 'done' || life.finishedAt === null) return null;
  const when = offBy(task.finish.at, life.finishedAt, asThere);
  return when === null ? null : `was finished ${when}`;
}

/** Put aside where the plan has it rest anyway, over a night say, is as planned. */
function paused(task: SheetTask, life: TaskLife, at: string): string | null {
  const rests = task.segments.slice(0, -1).some(({ finish }) => near(finish.at, at));
  if (rests) return null;
  const left =
    life.leftMinutes === null ? '' : ` with ${span(life.leftMinutes)} of work still to be done`;
  return `was put aside${left}`;
}

function resumed(task: SheetTask, at: string, asThere: string): string | null {
  if (task.segments.some(({ start }) => near(start.at, at))) return null;
  return `was taken up again at another time than ${asThere}`;
}

/** What is left against what the plan has left of it at that moment, for each of the crew. */
function progressed(task: SheetTask, life: TaskLife, at: string, asThere: string): string | null {
  if (life.leftMinutes === null || life.crew.length === 0) return null;
  const ahead = task.segments.reduce((sum, { start, finish }) => {
    const from = Math.max(Date.parse(start.at), Date.parse(at));
    return sum + Math.max(0, Date.parse(finish.at) - from) / MINUTE_MS;
  }, 0);
  const each = life.leftMinutes / life.crew.length - ahead;
  if (Math.abs(each) <= TOLERANCE_MINUTES) return null;
  const much = span(each);
  return `will take ${much} ${each > 0 ? 'longer' : 'less'} than ${asThere}`;
}

/**
 * What of a report of work disturbs whatever plan there is, as the rest of a sentence about the task;
 * null where that hangs on the plan.
 */
function byItself(kind: WorkEventKind, { before, after, reason }: WorkPayload): string | null {
  const begun = after.state === 'working';
  // A full stop follows; people end a reason with one as often as not.
  const why = reason === null ? '' : `: ${reason.replace(/\.+$/, '')}`;
  switch (kind) {
    case 'crew-joined':
      return begun ? 'has one more at work on it' : null;
    case 'crew-left':
      return begun ? 'has one fewer at work on it' : null;
    case 'task-released':
      return before.state === 'working' ? 'was given back after it had begun' : null;
    case 'task-abandoned':
      return `was given up${why}`;
    case 'batch-failed':
      return `has to be done again, for its batch did not kick${why}`;
    case 'task-undone':
      return before.state === after.state ? null : 'was reported by mistake, and is as before';
    default:
      return null;
  }
}

/** What of it is otherwise than in a plan, likewise; null where it goes with that, give or take the tolerance. */
function against(
  kind: WorkEventKind,
  { at, after }: WorkPayload,
  task: SheetTask | undefined,
  asThere: string,
  nameOf: (person: string) => string,
): string | null {
  if (task === undefined)
    return kind === 'task-started' ? 'was begun though the plan leaves it out' : null;
  switch (kind) {
    case 'task-started':
      return started(task, after, asThere, nameOf);
    case 'task-finished':
      return finished(task, after, asThere);
    case 'task-paused':
      return paused(task, after, at);
    case 'task-resumed':
      return resumed(task, at, asThere);
    case 'task-progressed':
      return progressed(task, after, at, asThere);
    default:
      return null;
  }
}

const tasksOf = new WeakMap<PlanSheet, ReadonlyMap<string, SheetTask>>();

/** The tasks of a sheet by id, made once for a sheet. */
function byId(sheet: PlanSheet): ReadonlyMap<string, SheetTask> {
  const known = tasksOf.get(sheet);
  if (known !== undefined) return known;
  const made = new Map(sheet.tasks.map((task) => [task.id, task]));
  tasksOf.set(sheet, made);
  return made;
}

/** What of a report does not go with the plans: with the published one, where it goes with neither. */
export function offPlan(
  kind: WorkEventKind,
  taskId: string,
  payload: WorkPayload,
  plans: readonly HeldAgainst[],
  nameOf: (person: string) => string,
): string | null {
  const own = byItself(kind, payload);
  if (own !== null) return own;
  for (const { is, sheet } of plans) {
    const isOffered = is === 'offered';
    const asThere = isOffered ? 'there' : 'planned';
    const words = against(kind, payload, byId(sheet).get(taskId), asThere, nameOf);
    if (words === null) continue;
    return isOffered ? `does not go with the plan that is offered: it ${words}` : words;
  }
  return null;
}
