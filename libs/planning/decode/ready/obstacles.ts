import { reachedAt } from '#cure/clock/cure-clock.ts';
import type { Side } from '#cure/material/material.ts';
import { anchorsOf } from '../../compile/work/lags.ts';
import { refusedStarts } from '../../compile/films/refused.ts';
import type { Task, TaskLink } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import { becoming } from '../reading/film.ts';
import { airObstacle } from './open-air.ts';
import { timeOf, type Obstacle, type Place } from '../reading/place.ts';
import { shortName } from '../reading/rows.ts';
import { refusedNow } from '../explain/sentences.ts';
import { barrierObstacle, partObstacle, slotObstacle, toolObstacle } from './supply.ts';

/** The minute a side of a link gives, from when the earlier task really was; null for never. */
function momentOf(link: TaskLink, side: Side, anchor: number, place: Place): number | null {
  const moment = side === 'open' ? link.opens : link.closes;
  if (moment === null) return side === 'open' ? -Infinity : Infinity;
  if (moment.kind === 'after') return anchor + moment.minutes;
  const from = place.rows.tasks.get(link.from);
  if (from === undefined || from.material === null) return null;
  return reachedAt(
    place.films.clock(
      from.material,
      moment.milestone,
      side,
      place.whereabouts.ofLink(link, moment.milestone, side),
    ),
    anchor,
  );
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
  Math.max(task.floorMinutes, Math.ceil(task.workMinutes / Math.max(1, task.crewMax)));

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

function climateObstacle(task: Task, place: Place): Obstacle | null {
  if (task.material === null) return null;
  const { films, whereabouts, now, horizon } = place;
  const hits = refusedStarts(task, briefest(task), films, whereabouts).flatMap(({ kind, spans }) =>
    spans.filter(({ start, end }) => start <= now && now < end).map(({ end }) => ({ kind, end })),
  );
  // What lasts longest is what it waits for.
  hits.sort((a, b) => b.end - a.end);
  const hit = hits.at(0);
  if (hit === undefined) return null;
  return {
    why: refusedNow(films.material(task.material).name, hit.kind),
    until: hit.end > horizon ? null : hit.end,
  };
}

/** The first thing that keeps the task from beginning now; null if it is ready. */
export function obstacleOf(
  task: Task,
  links: readonly TaskLink[],
  yard: Yard,
  place: Place,
): Obstacle | null {
  for (const { at, kind, source } of place.releases(task)) {
    if (at <= place.now) continue;
    const when = place.at.words(at);
    if (kind === 'boat') return { why: `the boat is there from ${when}`, until: at };
    if (kind === 'word') return { why: `the word is expected ${when}`, until: at };
    const delivery = yard.deliveries.find(({ id }) => source === `delivery:${id}`);
    return { why: `${delivery?.name ?? source} is expected ${when}`, until: at };
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
  return (
    climateObstacle(task, place) ??
    airObstacle(task, yard, place) ??
    partObstacle(task, place) ??
    toolObstacle(task, yard, place) ??
    barrierObstacle(task, place) ??
    slotObstacle(task, yard, place)
  );
}
