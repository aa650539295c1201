import type { PlanSheet, SheetTask } from '#planning/decode/sheet.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { TaskLife, WorkSpan } from '../life/life.ts';

/** Time that a task takes, or took. `real`: it has been begun, or is over. */
export interface Stretch {
  /** Stable: stretches are counted from the first, planned ones after those that were. */
  readonly place: number;
  /** Epoch milliseconds. */
  readonly start: number;
  readonly end: number;
  readonly real: boolean;
  readonly crew: readonly string[];
}

const MINUTE = 60_000;
/** Of begun work of which nobody knows how long it takes; shorter entries cannot be read in a client. */
const SHORTEST = 15 * MINUTE;

interface Planned {
  readonly start: number;
  readonly end: number;
}

const plannedOf = (sheet: SheetTask | undefined): Planned[] =>
  (sheet?.segments ?? []).map(({ start, finish }) => ({
    start: Date.parse(start.at),
    end: Date.parse(finish.at),
  }));

/**
 * Whose a task that is to be done is: whoever holds it, else whom the foreman has set it for, else
 * whom the plan gives it to.
 */
export function crewOf(
  task: Task,
  life: TaskLife | undefined,
  sheet: SheetTask | undefined,
): readonly string[] {
  if (life?.claim) return life.claim.crew;
  if (task.crew.length > 0) return task.crew;
  return sheet?.crew.map(({ personId }) => personId) ?? [];
}

/** Work that was begun before spans of it were kept: the whole of it. */
function spansOf(
  task: Task,
  life: TaskLife | undefined,
): Pick<WorkSpan, 'start' | 'end' | 'crew'>[] {
  if (life !== undefined && life.spans.length > 0) return life.spans;
  if (task.startedAt === null) return [];
  const end = task.state === 'working' ? null : (task.finishedAt ?? task.startedAt);
  return [{ start: task.startedAt, end, crew: [...task.crew] }];
}

/** How long the stretch that is being worked is to take: as reported, as planned, or by its crew. */
function expectedEnd(task: Task, start: number, heads: number, ahead: readonly Planned[]): number {
  if (task.finishedAt !== null) return Math.max(start + SHORTEST, Date.parse(task.finishedAt));
  const next = ahead.at(0);
  const minutes = (task.leftMinutes ?? task.workMinutes) / Math.max(1, heads);
  const length = next === undefined ? minutes * MINUTE : next.end - next.start;
  return start + Math.max(SHORTEST, length);
}

/**
 * When a task is done and by whom: as it was where it has begun, as the published plan has it for
 * what is left. Nothing depends on the moment of asking, or a feed would say something new at each.
 */
export function stretchesOf(
  task: Task,
  life: TaskLife | undefined,
  sheet: SheetTask | undefined,
): Stretch[] {
  const planned = plannedOf(sheet);
  const crew = crewOf(task, life, sheet);
  const spans = task.state === 'waiting' ? [] : spansOf(task, life);
  const worked = spans.flatMap(({ start, end, crew: heads }, place): Stretch[] => {
    if (end === null) return [];
    const [from, to] = [Date.parse(start), Date.parse(end)];
    return to > from ? [{ place, start: from, end: to, real: true, crew: heads }] : [];
  });
  const last = Math.max(0, ...worked.map(({ end }) => end));
  // Of begun work the plan may still say what it said before: what it had so far is worked off.
  const ahead = task.state === 'waiting' ? planned : planned.filter(({ end }) => end > last);
  const open = spans.findIndex(({ end }) => end === null);
  if (open >= 0) {
    const { start, crew: heads } = spans[open];
    const from = Date.parse(start);
    const end = expectedEnd(task, from, heads.length, ahead);
    const now = { place: open, start: from, end, real: true, crew: heads };
    const later = ahead.slice(1).filter((one) => one.start >= end);
    return [...worked, now, ...numbered(later, spans.length, heads)];
  }
  if (task.state === 'done' || task.state === 'redo') return worked;
  return [...worked, ...numbered(ahead, spans.length, crew)];
}

const numbered = (planned: readonly Planned[], from: number, crew: readonly string[]): Stretch[] =>
  planned
    .filter(({ start, end }) => end > start)
    .map((one, k) => ({ ...one, place: from + k, real: false, crew }));

/** The tasks of a plan by id. */
export const sheetTasks = (sheet: PlanSheet | null): ReadonlyMap<string, SheetTask> =>
  new Map(sheet?.tasks.map((task) => [task.id, task]));
