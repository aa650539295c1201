import { reachedAt } from '#cure/clock/cure-clock.ts';
import type { Side } from '#cure/material/material.ts';
import { forbiddenStarts } from '#cure/windows/forbidden.ts';
import { standingOf } from '../compile/choices.ts';
import { firstMinute, temperatures } from '../compile/climate.ts';
import { filmsOf, type Films } from '../compile/films.ts';
import { anchorsOf } from '../compile/lags.ts';
import { frameOf, type Frame } from '../compile/time.ts';
import type { Task, TaskLink, Workload } from '../workload/workload.ts';
import type { Yard } from '../yard/yard.ts';
import { becoming, mixOf } from './film.ts';
import { moments, type Moments } from './moments.ts';
import { rowsOf, shortName, type Rows } from './reading.ts';
import type { MixHint, PlanSheet, When } from './sheet.ts';

interface Listed {
  readonly taskId: string;
  readonly name: string;
  readonly partId: string;
  readonly part: string;
  readonly boatId: string;
  readonly boat: string;
  readonly refitId: string;
  readonly spaceId: string;
  readonly space: string;
  readonly skill: string;
  readonly minLevel: number;
  readonly crewMin: number;
  readonly crewMax: number;
  readonly workMinutes: number;
}

/** A task that a builder may take up now. */
export interface ReadyTask extends Listed {
  /** The window shuts then: the task has to be over. Null if nothing presses. */
  readonly closes: When | null;
  /** To be over in time with the largest crew at the nominal rate. */
  readonly startBy: When | null;
  readonly because: string | null;
  readonly mix: MixHint | null;
}

/** A task that may not begin yet, and why. */
export interface WaitingTask extends Listed {
  readonly why: string;
  /** When that is over, where it is known. */
  readonly opens: When | null;
}

export interface ReadyList {
  readonly ready: readonly ReadyTask[];
  readonly waiting: readonly WaitingTask[];
}

interface Obstacle {
  readonly why: string;
  readonly until: number | null;
}

interface Place {
  readonly workload: Workload;
  readonly rows: Rows;
  readonly films: Films;
  readonly frame: Frame;
  readonly at: Moments;
  readonly now: number;
  readonly horizon: number;
}

const MINUTES_AHEAD = 30 * 1440;

/** The minute a side of a link gives, from when the earlier task really was; null for never. */
function momentOf(link: TaskLink, side: Side, anchor: number, place: Place): number | null {
  const moment = side === 'open' ? link.opens : link.closes;
  if (moment === null) return side === 'open' ? -Infinity : Infinity;
  if (moment.kind === 'after') return anchor + moment.minutes;
  const [from, to] = [place.rows.tasks.get(link.from), place.rows.tasks.get(link.to)];
  if (from === undefined || from.material === null || to === undefined) return null;
  return reachedAt(
    place.films.clock(from.material, moment.milestone, side, [from.space, to.space]),
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
const briefest = (task: Task): number =>
  Math.max(task.floorMinutes, Math.ceil(task.workMinutes / task.crewMax));

interface Pressure {
  readonly closes: number;
  readonly link: TaskLink;
}

/** The link whose window shuts first. */
function pressureOf(links: readonly TaskLink[], place: Place): Pressure | null {
  let first: Pressure | null = null;
  for (const link of links) {
    const from = place.rows.tasks.get(link.from);
    if (from === undefined || link.closes === null) continue;
    const anchor = timeOf(from, link.sweep === 'same' ? 'finish' : 'start', place.frame);
    const closes = anchor === null ? null : momentOf(link, 'close', anchor, place);
    if (closes !== null && (first === null || closes < first.closes)) first = { closes, link };
  }
  return first;
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

/** Links that hold, and tasks left out, when every choice goes the way the plan says (its first branch without one). */
function chosen(
  workload: Workload,
  sheet: PlanSheet | null,
): { off: ReadonlySet<string>; links: ReadonlySet<string> } {
  const standing = standingOf(workload);
  const off = new Set(standing.dropped);
  const links = new Set(standing.droppedLinks);
  for (const choice of standing.open) {
    const planned =
      sheet?.choices.find(({ id }) => id === choice.id)?.branch ?? choice.branches[0].id;
    const taken = choice.branches.find(({ id }) => id === planned) ?? choice.branches[0];
    for (const branch of choice.branches) {
      if (branch === taken) continue;
      for (const task of branch.tasks) off.add(task);
      for (const link of branch.links) links.add(link);
    }
  }
  return { off, links };
}

/**
 * What may be taken up at `now`, and what each other waiting task waits for: tasks before
 * it, a window of a film really laid, air, the boat. Windows that shut first come first.
 * Choices go as the plan says; without a plan each goes its first way.
 */
export function readyList(input: {
  yard: Yard;
  workload: Workload;
  sheet: PlanSheet | null;
  now: string;
}): ReadyList {
  const { yard, workload, sheet } = input;
  const frame = frameOf(yard, undefined, undefined);
  const now = frame.minuteOf(input.now);
  const horizon = Math.max(frame.horizon, now + MINUTES_AHEAD);
  const series = temperatures(
    yard,
    { ...frame, horizon },
    Math.min(firstMinute(workload, frame), Math.floor(now / 10) * 10),
  );
  const place: Place = {
    workload,
    rows: rowsOf(yard, workload),
    films: filmsOf(yard, series, horizon),
    frame,
    at: moments(frame.origin, yard.timeZone),
    now,
    horizon,
  };
  const { off, links: offLinks } = chosen(workload, sheet);
  const ready: (ReadyTask & { readonly order: number })[] = [];
  const waiting: WaitingTask[] = [];
  for (const task of workload.tasks) {
    if (task.state !== 'waiting' || off.has(task.id)) continue;
    const links = workload.links.filter(
      (link) => link.to === task.id && !offLinks.has(link.id) && !off.has(link.from),
    );
    const listed = listedOf(task, place.rows);
    const obstacle = obstacleOf(task, links, yard, place);
    if (obstacle !== null) {
      waiting.push({
        ...listed,
        why: obstacle.why,
        opens: obstacle.until === null ? null : place.at.when(obstacle.until),
      });
      continue;
    }
    const pressure = pressureOf(links, place);
    const material = task.material === null ? undefined : place.rows.materials.get(task.material);
    ready.push({
      ...listed,
      closes: pressure === null ? null : place.at.when(pressure.closes),
      startBy: pressure === null ? null : place.at.when(pressure.closes - briefest(task)),
      because:
        pressure === null
          ? null
          : `the window of ${shortName(place.rows, pressure.link.from)} shuts`,
      mix:
        material === undefined
          ? null
          : mixOf(task, material, now, now + briefest(task), place.films),
      order: pressure === null ? Infinity : pressure.closes - briefest(task),
    });
  }
  ready.sort((a, b) => (a.order === b.order ? 0 : a.order - b.order));
  return { ready: ready.map(({ order: _, ...task }) => task), waiting };
}

function obstacleOf(
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
  const pressure = pressureOf(links, place);
  if (pressure !== null && pressure.closes < place.now + briefest(task)) {
    const name = shortName(place.rows, pressure.link.from);
    return {
      why: `too late: the window of ${name} shuts ${place.at.words(pressure.closes)}; plan again`,
      until: null,
    };
  }
  return climateObstacle(task, place) ?? airObstacle(task, yard, place);
}

function listedOf(task: Task, rows: Rows): Listed {
  const home = rows.parts.get(task.partId);
  return {
    taskId: task.id,
    name: task.name,
    partId: task.partId,
    part: home?.part.name ?? task.partId,
    boatId: home?.boat.id ?? '',
    boat: home?.boat.name ?? '',
    refitId: task.refitId,
    spaceId: task.space,
    space: rows.spaceName(task.space),
    skill: task.skill,
    minLevel: task.minLevel,
    crewMin: task.crewMin,
    crewMax: task.crewMax,
    workMinutes: task.workMinutes,
  };
}
