import { standingOf } from '../../compile/work/choices.ts';
import { filmsOf } from '../../compile/films/films.ts';
import { releases } from '../../compile/site/outside.ts';
import { barriersAsLeft, takenTo } from '../../compile/site/parts.ts';
import { frameOf } from '../../compile/frame/time.ts';
import { whereabouts } from '../../compile/films/whereabouts.ts';
import type { Task, Workload } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import { briefingOf, type Briefing } from '../briefing/briefing.ts';
import { moments } from '../reading/moments.ts';
import { briefest, obstacleOf, pressureOf } from './obstacles.ts';
import { doneBefore } from '../reading/past-work.ts';
import type { Place } from '../reading/place.ts';
import { rowsOf, shortName, type Rows } from '../reading/rows.ts';
import type { PlanSheet, When } from '../sheet.ts';

/** Films are followed so far beyond now at least. */
const MINUTES_AHEAD = 30 * 1440;

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
  /** Null of a hold point: somebody is told the word. */
  readonly skill: string | null;
  readonly minLevel: number;
  readonly crewMin: number;
  readonly crewMax: number;
  readonly workMinutes: number;
}

/** A task that a builder may take up now. */
export interface ReadyTask extends Listed, Briefing {
  /** The window shuts then: the task has to be over. Null if nothing presses. */
  readonly closes: When | null;
  /** To be over in time with the largest crew at the nominal rate. */
  readonly startBy: When | null;
  readonly because: string | null;
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
  const films = filmsOf(yard, workload, { ...frame, horizon }, Math.min(0, now));
  const place: Place = {
    workload,
    moved: takenTo(workload.tasks),
    closed: new Set(
      barriersAsLeft(yard.barriers, workload.tasks).flatMap(({ id, closed }) =>
        closed ? [id] : [],
      ),
    ),
    releases: releases(yard, frame),
    rows: rowsOf(yard, workload),
    films,
    whereabouts: whereabouts(workload, films),
    frame,
    at: moments(frame.origin, yard.timeZone),
    now,
    horizon,
  };
  const site = { ...place, yard, before: doneBefore(place) };
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
    const pressure = pressureOf(task, links, place);
    const over = now + briefest(task);
    ready.push({
      ...listed,
      closes: pressure === null ? null : place.at.when(pressure.closes),
      startBy: pressure === null ? null : place.at.when(pressure.startBy),
      because:
        pressure === null
          ? null
          : `the window of ${shortName(place.rows, pressure.link.from)} shuts`,
      ...briefingOf(task, now, over, over, site),
      order: pressure?.startBy ?? Infinity,
    });
  }
  ready.sort((a, b) => (a.order === b.order ? 0 : a.order - b.order));
  return { ready: ready.map(({ order: _, ...task }) => task), waiting };
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
