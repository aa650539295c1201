import { isDeepStrictEqual } from 'node:util';
import { untouched, type TaskLife } from '#live/life/life.ts';
import type { Task } from '#planning/workload/workload.ts';
import { utcOf } from '../rows.ts';
import { isTouched } from './load-lives.ts';
import { mostFollowed, type LogEntry, type WorkDone } from './log.ts';
import type { Stale, YardState } from './yard-state.ts';

const stamp = (at: string | null): string | null => at && utcOf(at);

/** The task as its life has it; null where that takes it out of the workload. */
function lived(task: Task, life: TaskLife): Task | null {
  const { state, startedAt, finishedAt, leftMinutes, crew } = life;
  if (state === 'dropped') return null;
  return {
    ...task,
    state,
    startedAt: stamp(startedAt),
    finishedAt: stamp(finishedAt),
    leftMinutes,
    crew,
  };
}

const placesOf = new WeakMap<readonly Task[], ReadonlyMap<string, number>>();

/** Where each task is in the list; lists that follow from one another have the same places. */
function places(tasks: readonly Task[]): ReadonlyMap<string, number> {
  const known = placesOf.get(tasks);
  if (known !== undefined) return known;
  const made = new Map(tasks.map(({ id }, k) => [id, k]));
  placesOf.set(tasks, made);
  return made;
}

/** What was done, in order, put to a state; null where the log does not fit it. */
function followed(
  state: YardState,
  log: readonly WorkDone[],
  eventId = state.eventId,
): YardState | null {
  if (log.length === 0) return eventId === state.eventId ? state : { ...state, eventId };
  const place = places(state.workload.tasks);
  const tasks = [...state.workload.tasks];
  const lives = new Map(state.lives);
  let isSameWork = true;
  for (const { taskId, before, after } of log) {
    const k = place.get(taskId);
    if (k === undefined) return null;
    const task = lived(tasks[k], after);
    if (task === null) return null;
    if (!isDeepStrictEqual(lives.get(taskId) ?? untouched(), before)) return null;
    if (!isDeepStrictEqual(task, tasks[k])) {
      tasks[k] = task;
      isSameWork = false;
    }
    if (isTouched(after)) lives.set(taskId, after);
    else lives.delete(taskId);
  }
  // A claim is no work yet: what has been found out about the work stays with it.
  if (isSameWork) return { ...state, eventId, lives };
  placesOf.set(tasks, place);
  return { ...state, eventId, workload: { ...state.workload, tasks }, lives };
}

/** What a log leaves of a state, and what of it has to be read anew. */
export interface Followed {
  readonly state: YardState;
  readonly stale: Stale;
}

/** Follows a log from a state on, as far as its events say what became of it. */
export function follow(known: YardState, log: readonly LogEntry[]): Followed {
  const kinds = new Set(log.map(({ touches }) => touches.kind));
  const all = kinds.has('all') || log.length > mostFollowed;
  const done = log.flatMap(({ touches }) => (touches.kind === 'life' ? [touches.done] : []));
  const told = all || kinds.has('work') ? null : followed(known, done, log.at(-1)?.id);
  return {
    state: told ?? known,
    stale: {
      yard: all || kinds.has('yard'),
      work: told === null,
      plan: all || kinds.has('plan'),
    },
  };
}

export const isFresh = ({ yard, work, plan }: Stale): boolean => !yard && !work && !plan;
