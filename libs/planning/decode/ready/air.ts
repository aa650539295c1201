import { reachedAt } from '#cure/clock/cure-clock.ts';
import type { Whereabouts } from '../../compile/films/whereabouts.ts';
import type { Task } from '../../workload/workload.ts';
import type { Rows } from '../reading/rows.ts';
import { timeOf } from '../reading/time-of.ts';
import type { Ground } from './ground.ts';

/** What the air of the spaces is judged by, at minute `now`. */
export interface AirSite extends Pick<Ground, 'films' | 'frame' | 'spaces'> {
  readonly now: number;
  readonly rows: Rows;
  readonly whereabouts: Whereabouts;
}

/** What a task left behind, and until which minute; null where nobody knows. */
export interface Lasting {
  readonly task: Task;
  readonly until: number | null;
}

/** It stays as it is until the work is another, or its climates are. */
const settled = new WeakMap<Whereabouts, WeakMap<Task, number>>();

function safeFrom(task: Task, laid: number, site: AirSite): number {
  const { films, whereabouts } = site;
  const moment = task.sensitiveUntil ?? { kind: 'milestone', milestone: 'dust-safe' };
  if (moment.kind === 'after') return laid + moment.minutes;
  if (task.material === null) return -Infinity;
  const places = whereabouts.ofFilm(task, moment.milestone);
  return reachedAt(films.clock(task.material, moment.milestone, 'open', places), laid) ?? Infinity;
}

/** Until when what a task left may not be reached by dust; null where nobody knows. */
function openUntil(task: Task, site: AirSite): number | null {
  const covered = task.coveredBy.some((cover) => {
    const state = site.rows.tasks.get(cover)?.state ?? 'waiting';
    return state !== 'waiting';
  });
  if (covered) return -Infinity;
  if (task.coveredBy.length > 0) return null;
  const laid = timeOf(task, 'finish', site.frame);
  if (laid === null) return null;
  const known = settled.get(site.whereabouts) ?? new WeakMap<Task, number>();
  settled.set(site.whereabouts, known);
  let until = known.get(task);
  if (until === undefined) {
    until = safeFrom(task, laid, site);
    known.set(task, until);
  }
  return until === Infinity ? null : until;
}

const isStill =
  ({ now }: AirSite) =>
  ({ until }: Lasting): boolean =>
    until === null || until > now;

/** What `begun` work has left open at this moment. What is done again comes off, and is open no more. */
export const openIn = (begun: readonly Task[], site: AirSite): Lasting[] =>
  begun
    .filter(({ state }) => state !== 'redo')
    .map((task) => ({ task, until: openUntil(task, site) }))
    .filter(isStill(site));

/** Dust of `begun` work that is still in the air. */
export const dustIn = (begun: readonly Task[], site: AirSite): Lasting[] =>
  begun
    .map((task) => {
      const done = timeOf(task, 'finish', site.frame);
      const settling = site.spaces.get(task.space)?.settlingMinutes ?? 0;
      return { task, until: done === null ? null : done + settling };
    })
    .filter(isStill(site));
