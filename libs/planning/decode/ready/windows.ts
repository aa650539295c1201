import { reachedAt } from '#cure/clock/cure-clock.ts';
import type { Milestone, Side } from '#cure/material/material.ts';
import { anchorsOf } from '../../compile/work/lags.ts';
import { isToPlan, restOf } from '../../workload/standing.ts';
import type { Task, TaskLink } from '../../workload/workload.ts';
import { timeOf } from '../reading/time-of.ts';
import type { Place } from './place.ts';

/** What a link leaves the later task, by when the earlier really was; ISO instants. */
export interface TaskWindow {
  readonly linkId: string;
  readonly from: string;
  readonly to: string;
  /** Null: not while the earlier goes on, or not within sight. */
  readonly opensAt: string | null;
  /** The task has to be over by then; null: no such end is known yet. */
  readonly closesAt: string | null;
  /** To be over by `closesAt` with the largest crew at the nominal rate. */
  readonly startBy: string | null;
  /** Of the earlier task's film; null where a side goes by minutes, or there is none. */
  readonly milestones: { readonly opens: Milestone | null; readonly closes: Milestone | null };
}

/** The minute a side of a link gives, from when the earlier task really was; null for never. */
function momentOf(link: TaskLink, side: Side, anchor: number, place: Place): number | null {
  const moment = side === 'open' ? link.opens : link.closes;
  if (moment === null) return side === 'open' ? -Infinity : Infinity;
  if (moment.kind === 'after') return anchor + moment.minutes;
  const from = place.rows.tasks.get(link.from);
  if (from === undefined || from.material === null) return null;
  const places = place.whereabouts.ofLink(link, moment.milestone, side);
  return reachedAt(place.films.clock(from.material, moment.milestone, side, places), anchor);
}

/** When the link lets the later task begin; null: not known, or never. */
export function openingOf(link: TaskLink, place: Place): number | null {
  const from = place.rows.tasks.get(link.from);
  const [[anchorOf]] = anchorsOf(link.sweep, 'open');
  const anchor = from === undefined ? null : timeOf(from, anchorOf, place.frame);
  return anchor === null ? null : momentOf(link, 'open', anchor, place);
}

/** The least minutes that what is left of the task takes at the nominal rate. */
export function briefest(task: Task): number {
  const { floorMinutes, workMinutes, crewMax } = restOf(task);
  return Math.max(floorMinutes, Math.ceil(workMinutes / Math.max(1, crewMax)));
}

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
    // What was put aside has begun: only its end can come too late.
    if (task.state === 'paused' && toAnchor === 'start') return [];
    const anchor = timeOf(from, fromAnchor, place.frame);
    const closes = anchor === null ? null : momentOf(link, 'close', anchor, place);
    if (closes === null || closes === Infinity) return [];
    return [{ closes, startBy: closes - (toAnchor === 'finish' ? briefest(task) : 0), link }];
  });
}

export function pressureOf(task: Task, links: readonly TaskLink[], place: Place): Pressure | null {
  let first: Pressure | null = null;
  for (const link of links) {
    for (const one of pressuresOf(link, task, place))
      if (first === null || one.startBy < first.startBy) first = one;
  }
  return first;
}

const milestoneOf = (moment: TaskLink['opens']): Milestone | null =>
  moment?.kind === 'milestone' ? moment.milestone : null;

/** Whether there is anything to be told of it: not of plain order. */
const isWindow = ({ opens, closes }: TaskLink): boolean =>
  closes !== null || (opens !== null && !(opens.kind === 'after' && opens.minutes === 0));

/** The window of a link into work that is to come; null where the earlier has not begun, or it has none. */
export function windowOf(link: TaskLink, place: Place): TaskWindow | null {
  const [from, to] = [place.rows.tasks.get(link.from), place.rows.tasks.get(link.to)];
  if (from === undefined || to === undefined || !isWindow(link)) return null;
  if (isToPlan(from) || !isToPlan(to)) return null;
  const opens = link.opens === null ? null : openingOf(link, place);
  const pressure = pressureOf(to, [link], place);
  const iso = (minute: number | null | undefined): string | null =>
    minute === null || minute === undefined ? null : place.frame.isoAt(Math.floor(minute));
  return {
    linkId: link.id,
    from: link.from,
    to: link.to,
    opensAt: iso(opens),
    closesAt: iso(pressure?.closes),
    startBy: iso(pressure?.startBy),
    milestones: { opens: milestoneOf(link.opens), closes: milestoneOf(link.closes) },
  };
}
