import type { Refused } from '../../compile/films/refusals.ts';
import { refusedStarts } from '../../compile/films/refused.ts';
import type { Whereabouts } from '../../compile/films/whereabouts.ts';
import { anchorsOf } from '../../compile/work/lags.ts';
import type { Task, TaskLink } from '../../workload/workload.ts';
import { refusedNow } from '../explain/sentences.ts';
import { becoming } from '../reading/film.ts';
import { shortName } from '../reading/rows.ts';
import { timeOf } from '../reading/time-of.ts';
import { airObstacle } from './open-air.ts';
import type { Obstacle, Place } from './place.ts';
import {
  barrierObstacle,
  partObstacle,
  roomObstacle,
  slotObstacle,
  stockObstacle,
  toolObstacle,
} from './supply.ts';
import { briefest, openingOf, pressureOf } from './windows.ts';

const notOver: Readonly<Partial<Record<Task['state'], string>>> = {
  working: 'is still being done',
  paused: 'is paused',
};

/** What a link still holds the later task back for; null if it is open. */
function notOpen(link: TaskLink, place: Place): Obstacle | null {
  const { rows, frame, now, at } = place;
  const from = rows.tasks.get(link.from);
  if (from === undefined || link.opens === null) return null;
  const name = shortName(rows, from.id);
  const [[anchorOf]] = anchorsOf(link.sweep, 'open');
  if (timeOf(from, anchorOf, frame) === null) {
    return { why: `${name} ${notOver[from.state] ?? 'is not done'}`, until: null };
  }
  const opens = openingOf(link, place);
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

/** They stay as they are until the work is another, or its climates are. */
const refusals = new WeakMap<Whereabouts, Map<string, readonly Refused[]>>();

function refusedTo(task: Task, minutes: number, place: Place): readonly Refused[] {
  const { films, whereabouts } = place;
  const known = refusals.get(whereabouts) ?? new Map<string, readonly Refused[]>();
  refusals.set(whereabouts, known);
  const key = `${task.id} ${String(minutes)}`;
  const before = known.get(key);
  if (before !== undefined) return before;
  const found = refusedStarts(task, minutes, films, whereabouts);
  known.set(key, found);
  return found;
}

function climateObstacle(task: Task, place: Place): Obstacle | null {
  if (task.material === null) return null;
  const { films, now, horizon } = place;
  const hits = refusedTo(task, briefest(task), place).flatMap(({ kind, spans }) =>
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

function releaseObstacle(task: Task, place: Place): Obstacle | null {
  for (const { at, kind, source } of place.releases(task)) {
    if (at <= place.now) continue;
    const when = place.at.words(at);
    if (kind === 'boat') return { why: `the boat is there from ${when}`, until: at };
    if (kind === 'word') return { why: `the word is expected ${when}`, until: at };
    const delivery = place.yard.deliveries.find(({ id }) => source === `delivery:${id}`);
    return { why: `${delivery?.name ?? source} is expected ${when}`, until: at };
  }
  return null;
}

function lateObstacle(task: Task, links: readonly TaskLink[], place: Place): Obstacle | null {
  const pressure = pressureOf(task, links, place);
  if (pressure === null || pressure.startBy >= place.now) return null;
  const name = shortName(place.rows, pressure.link.from);
  return {
    why: `too late: the window of ${name} shuts ${place.at.words(pressure.closes)}; plan again`,
    until: null,
  };
}

/** The first thing that keeps the task, or the rest of it, from beginning now; null if it is ready. */
export function obstacleOf(task: Task, links: readonly TaskLink[], place: Place): Obstacle | null {
  if (task.state === 'waiting') {
    const held = releaseObstacle(task, place);
    if (held !== null) return held;
  }
  for (const link of links) {
    const closed = notOpen(link, place);
    if (closed !== null) return closed;
  }
  return (
    lateObstacle(task, links, place) ??
    climateObstacle(task, place) ??
    airObstacle(task, place) ??
    partObstacle(task, place) ??
    toolObstacle(task, place) ??
    stockObstacle(task, place) ??
    barrierObstacle(task, place) ??
    slotObstacle(task, briefest(task), place) ??
    roomObstacle(task, place)
  );
}
