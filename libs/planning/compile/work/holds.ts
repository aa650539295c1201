import type { Hold, HoldEnd } from '#scheduling/model/problem.ts';
import type { Task, TaskHoldEnd } from '../../workload/workload.ts';
import { reachedOrNever } from '../films/films.ts';
import { ofBegun, type LagSite } from './lags.ts';
import type { Places } from '../site/places.ts';

function endOf(task: Task, end: TaskHoldEnd, site: LagSite): HoldEnd[] {
  if (end.kind === 'task') {
    const activity = site.index.get(end.task);
    return activity === undefined ? [] : [{ kind: 'activity', activity, anchor: end.anchor }];
  }
  const begun = site.begun(task.id);
  if (end.kind === 'after') {
    const minutes = (minute: number): number => minute + end.minutes;
    return [
      {
        kind: 'lag',
        fns: [
          begun === null
            ? { kind: 'constant', minutes: end.minutes }
            : ofBegun(begun, 'finish', minutes),
        ],
      },
    ];
  }
  if (task.material === null) throw new Error(`a hold of ${task.id} reads a film it does not lay`);
  const places = site.whereabouts.ofFilm(task, end.milestone);
  if (begun === null) {
    const table = site.films.table(task.material, end.milestone, 'open', places);
    return [{ kind: 'lag', fns: [{ kind: 'table', table }] }];
  }
  const clock = site.films.clock(task.material, end.milestone, 'open', places);
  const reached = (minute: number): number => reachedOrNever(clock, minute, site.horizon);
  return [{ kind: 'lag', fns: [ofBegun(begun, 'finish', reached)] }];
}

/** Whether begun work, or what it waits for, may still keep the hold at minute 0. */
function matters(task: Task, ends: readonly HoldEnd[], site: LagSite): boolean {
  const begun = site.begun(task.id);
  if (begun === null || begun.placedFinish > 0) return true;
  return ends.some((end) => end.kind === 'activity' || (constantOf(end) ?? 1) > 0);
}

const constantOf = (end: HoldEnd): number | null =>
  end.kind === 'lag' && end.fns[0].kind === 'constant' ? end.fns[0].minutes : null;

/** What tasks keep beyond their own time; nothing that was over before the plan begins, or is done again. */
export function holdsOf(tasks: readonly Task[], places: Places, site: LagSite): Hold[] {
  return tasks.flatMap((task, activity) =>
    (task.state === 'redo' ? [] : task.holds).flatMap(({ id, tool, count, until }): Hold[] => {
      const resource = places.toolOf.get(tool);
      const ends = until.flatMap((end) => endOf(task, end, site));
      if (resource === undefined || !matters(task, ends, site)) return [];
      const source = `hold:${task.id}/${id}`;
      return [{ id: source, activity, resource, amount: count, ends, source }];
    }),
  );
}
