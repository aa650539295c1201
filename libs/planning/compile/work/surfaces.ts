import type { LagFunction, OpenSurface } from '#scheduling/model/problem.ts';
import type { Task } from '../../workload/workload.ts';
import type { Moment } from '../../yard/procedures.ts';
import { reachedOrNever } from '../films/films.ts';
import { ofBegun, type LagSite } from './lags.ts';

function untilOf(task: Task, moment: Moment, site: LagSite): LagFunction {
  const begun = site.begun(task.id);
  if (moment.kind === 'after') {
    return begun === null
      ? { kind: 'constant', minutes: moment.minutes }
      : ofBegun(begun, 'finish', (minute) => minute + moment.minutes);
  }
  if (task.material === null)
    throw new Error(`the surface of ${task.id} reads a film it does not lay`);
  const places = site.whereabouts.ofFilm(task, moment.milestone);
  if (begun === null) {
    const table = site.films.table(task.material, moment.milestone, 'open', places);
    return { kind: 'table', table };
  }
  const clock = site.films.clock(task.material, moment.milestone, 'open', places);
  return ofBegun(begun, 'finish', (minute) => reachedOrNever(clock, minute, site.horizon));
}

/**
 * Surfaces that dust may not reach: the film of each wet task until it is dust-safe, or what the
 * task says. One of begun work that is past before the plan begins is left out, and what is done
 * again: that comes off.
 */
export function surfacesOf(tasks: readonly Task[], site: LagSite): OpenSurface[] {
  return tasks.flatMap((task, activity): OpenSurface[] => {
    const safe: Moment | null =
      task.material === null ? null : { kind: 'milestone', milestone: 'dust-safe' };
    const moment = task.sensitiveUntil ?? safe;
    if (moment === null || task.state === 'redo') return [];
    const until = untilOf(task, moment, site);
    const coveredBy = task.coveredBy.flatMap((cover) => site.index.get(cover) ?? []);
    if (site.begun(task.id) !== null && until.kind === 'constant' && coveredBy.length === 0) {
      if (until.minutes <= 0) return [];
    }
    const source = `surface:${task.id}`;
    return [{ id: source, activity, until: [until], coveredBy, source }];
  });
}
