import { reachedAt } from '#cure/clock/cure-clock.ts';
import type { Side } from '#cure/material/material.ts';
import { forbiddenStarts } from '#cure/windows/forbidden.ts';
import type { Films } from '../compile/films.ts';
import { anchorsOf } from '../compile/lags.ts';
import type { Frame } from '../compile/time.ts';
import type { Whereabouts } from '../compile/whereabouts.ts';
import type { Task, TaskLink, Workload } from '../workload/workload.ts';
import type { Yard } from '../yard/yard.ts';
import { becoming } from './film.ts';
import type { Moments } from './moments.ts';
import { shortName, type Rows } from './reading.ts';

/** What keeps a task from beginning, and until which minute, where that is known. */
export interface Obstacle {
  readonly why: string;
  readonly until: number | null;
}

/** The yard as it is at `now`; minutes from the yard's `planFrom`. */
export interface Place {
  readonly workload: Workload;
  readonly rows: Rows;
  readonly films: Films;
  readonly whereabouts: Whereabouts;
  readonly frame: Frame;
  readonly at: Moments;
  readonly now: number;
  readonly horizon: number;
}

/** The minute a side of a link gives, from when the earlier task really was; null for never. */
function momentOf(link: TaskLink, side: Side, anchor: number, place: Place): number | null {
  const moment = side === 'open' ? link.opens : link.closes;
  if (moment === null) return side === 'open' ? -Infinity : Infinity;
  if (moment.kind === 'after') return anchor + moment.minutes;
  const from = place.rows.tasks.get(link.from);
  if (from === undefined || from.material === null) return null;
  return reachedAt(
    place.films.clock(from.material, moment.milestone, side, place.whereabouts(link)),
    anchor,
  );
}

function timeOf(task: Task, anchor: 'start' | 'finish', frame: Frame): number | null {
  if (task.state === 'waiting' || (anchor === 'finish' && task.state !== 'done')) return null;
  const iso = anchor === 'start' ? task.startedAt : task.finishedAt;
  return iso === null ? null : frame.minuteOf(iso);
}

/** What a link still holds the later task back for; null if it is open. */
function notOpen(link: TaskLink, place: Place): Obstacle | null {
  const { rows, frame, now, at } = place;
  const from = rows.tasks.get(link.from);
  if (from === undefined || link.opens === null) return null;
  const [[fromAnchor]] = anchorsOf(link.sweep, 'open');
  const anchor = timeOf(from, fromAnchor, frame);
  const name = shortName(rows, from.id);
  if (anchor === null) {
    return {
      why: from.state === 'working' ? `${name} is still being done` : `${name} is not done`,
      until: null,
    };
  }
  const opens = momentOf(link, 'open', anchor, place);
  if (opens !== null && opens <= now) return null;
  const state =
    link.opens.kind === 'milestone'
      ? `is not ${becoming[link.opens.milestone]} yet`
      : `was done too short a time ago`;
  return {
    why: `${name} ${state}${opens === null ? '' : `, but on ${at.words(opens)}`}`,
    until: opens,
  };
}

/** The least minutes the task takes at the nominal rate. */
export const briefest = (task: Task): number =>
  Math.max(task.floorMinutes, Math.ceil(task.workMinutes / task.crewMax));

/** The window that presses most: shut at `closes`, the task has to begin by `startBy` at the latest. */
export interface Pressure {
  readonly closes: number;
  readonly startBy: number;
  readonly link: TaskLink;
}

/** Where a closing applies, as in `anchorsOf`: it limits the start, or the finish of the quickest crew. */
function pressuresOf(link: TaskLink, task: Task, place: Place): Pressure[] {
  const from = place.rows.tasks.get(link.from);
  if (from === undefined || link.closes === null) return [];
  return anchorsOf(link.sweep, 'close').flatMap(([fromAnchor, toAnchor]) => {
    const anchor = timeOf(from, fromAnchor, place.frame);
    const closes = anchor === null ? null : momentOf(link, 'close', anchor, place);
    if (closes === null) return [];
    return [{ closes, startBy: closes - (toAnchor === 'finish' ? briefest(task) : 0), link }];
  });
}

export function pressureOf(task: Task, links: readonly TaskLink[], place: Place): Pressure | null {
  const all = links.flatMap((link) => pressuresOf(link, task, place));
  return all.reduce<Pressure | null>(
    (first, one) => (first === null || one.startBy < first.startBy ? one : first),
    null,
  );
}

/** Dust that would meet a film, either way. */
function airObstacle(task: Task, yard: Yard, place: Place): Obstacle | null {
  if (task.air === 'clean') return null;
  const reach = new Map(yard.spaces.map((space) => [space.id, space]));
  for (const other of place.workload.tasks) {
    if (other.id === task.id || other.state === 'waiting') continue;
    const name = shortName(place.rows, other.id);
    if (
      task.air === 'dusty' &&
      other.material !== null &&
      (reach.get(task.space)?.dustReaches.includes(other.space) ?? false)
    ) {
      const laid = timeOf(other, 'finish', place.frame);
      const safe =
        laid === null
          ? null
          : reachedAt(place.films.clock(other.material, 'dust-safe', 'open', [other.space]), laid);
      if (safe === null || safe > place.now)
        return { why: `its dust would reach the film of ${name}`, until: safe };
    }
    if (
      task.air === 'wet' &&
      other.air === 'dusty' &&
      (reach.get(other.space)?.dustReaches.includes(task.space) ?? false)
    ) {
      const done = timeOf(other, 'finish', place.frame);
      const settled = done === null ? null : done + (reach.get(other.space)?.settlingMinutes ?? 0);
      if (settled === null || settled > place.now)
        return { why: `the dust of ${name} has not settled`, until: settled };
    }
  }
  return null;
}

function climateObstacle(task: Task, place: Place): Obstacle | null {
  if (task.material === null) return null;
  const material = place.films.material(task.material);
  const safe = material.milestones['tack-free'] === undefined ? 'dust-safe' : 'tack-free';
  const spans = forbiddenStarts(
    material,
    place.films.series(task.space),
    safe,
    briefest(task),
    place.horizon,
  );
  const hit = spans.find(({ start, end }) => start <= place.now && place.now < end);
  if (hit === undefined) return null;
  const until = hit.end > place.horizon ? null : hit.end;
  return {
    why: `${material.name} may not be laid now: it would be too cold or too warm before it has set`,
    until,
  };
}

/** The first thing that keeps the task from beginning now; null if it is ready. */
export function obstacleOf(
  task: Task,
  links: readonly TaskLink[],
  yard: Yard,
  place: Place,
): Obstacle | null {
  const release = place.rows.parts.get(task.partId)?.refit.release;
  if (release !== undefined && place.frame.minuteOf(release) > place.now) {
    const until = place.frame.minuteOf(release);
    return { why: `the boat is there from ${place.at.words(until)}`, until };
  }
  for (const link of links) {
    const closed = notOpen(link, place);
    if (closed !== null) return closed;
  }
  const pressure = pressureOf(task, links, place);
  if (pressure !== null && pressure.startBy < place.now) {
    const name = shortName(place.rows, pressure.link.from);
    return {
      why: `too late: the window of ${name} shuts ${place.at.words(pressure.closes)}; plan again`,
      until: null,
    };
  }
  return climateObstacle(task, place) ?? airObstacle(task, yard, place);
}
