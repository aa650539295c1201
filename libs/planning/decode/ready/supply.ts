import { reachedAt } from '#cure/clock/cure-clock.ts';
import type { Task, TaskHold } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import { spaceNow, timeOf, type Obstacle, type Place } from '../reading/place.ts';
import { shortName } from '../reading/rows.ts';

/** A part that is elsewhere, or that others are on. */
export function partObstacle(task: Task, place: Place): Obstacle | null {
  if (task.parts.length === 0) return null;
  const here = spaceNow(task, place);
  const name = place.rows.parts.get(task.partId)?.part.name ?? task.partId;
  if (here !== task.space) {
    const where = `${name} is in ${place.rows.spaceName(here)}`;
    return { why: `${where}, not in ${place.rows.spaceName(task.space)}`, until: null };
  }
  for (const other of place.workload.tasks) {
    if (other.state !== 'working' || other.id === task.id) continue;
    const shared = other.parts.find((part) => task.parts.includes(part));
    if (shared === undefined) continue;
    const part = place.rows.parts.get(shared)?.part.name ?? shared;
    return { why: `${shortName(place.rows, other.id)} is on ${part}`, until: null };
  }
  return null;
}

/** When a hold of begun work ends: past, some minute, or null where that is not known. */
function heldUntil(task: Task, hold: TaskHold, place: Place): number | null {
  const finish = timeOf(task, 'finish', place.frame);
  let latest: number | null = finish;
  for (const end of hold.until) {
    let until: number | null = null;
    if (end.kind === 'task') {
      const other = place.rows.tasks.get(end.task);
      until = other === undefined ? -Infinity : timeOf(other, end.anchor, place.frame);
    } else if (finish !== null && end.kind === 'after') until = finish + end.minutes;
    else if (finish !== null && end.kind === 'milestone' && task.material !== null) {
      const places = place.whereabouts.ofFilm(task, end.milestone);
      until = reachedAt(place.films.clock(task.material, end.milestone, 'open', places), finish);
    }
    if (until === null) return null;
    latest = latest === null ? null : Math.max(latest, until);
  }
  return latest;
}

/** How many of a tool are taken now, and when the first of them comes back, where that is known. */
function taken(tool: string, place: Place): { count: number; back: number | null; by: string[] } {
  let count = 0;
  const backs: number[] = [];
  const by: string[] = [];
  for (const task of place.workload.tasks) {
    if (task.state === 'waiting') continue;
    const used = task.state === 'working' ? task.tools.filter((one) => one.tool === tool) : [];
    const held = task.holds.filter((hold) => {
      if (hold.tool !== tool) return false;
      const until = heldUntil(task, hold, place);
      if (until !== null && until > place.now) backs.push(until);
      return until === null || until > place.now;
    });
    const much = [...used, ...held].reduce((sum, one) => sum + one.count, 0);
    if (much === 0) continue;
    count += much;
    by.push(shortName(place.rows, task.id));
  }
  return { count, back: backs.length === 0 ? null : Math.min(...backs), by };
}

/** Tools that are out, in use, or held by a part that is still curing. */
export function toolObstacle(task: Task, yard: Yard, place: Place): Obstacle | null {
  for (const { tool, count } of [...task.tools, ...task.holds]) {
    const row = yard.tools.find(({ id }) => id === tool);
    if (row === undefined) continue;
    const out = row.away
      .filter(
        ({ from, to }) =>
          place.frame.minuteOf(from) <= place.now && place.now < place.frame.minuteOf(to),
      )
      .reduce((sum, absence) => sum + absence.count, 0);
    const { count: inUse, back, by } = taken(tool, place);
    if (row.count - out - inUse >= count) continue;
    const whose = by.length === 0 ? 'it is away' : `taken by ${by.join(', ')}`;
    return { why: `there is no ${row.name} free: ${whose}`, until: back };
  }
  return null;
}

export function barrierObstacle(task: Task, place: Place): Obstacle | null {
  const { barrier } = task;
  if (barrier === null) return null;
  const other = place.workload.tasks.find(
    (one) => one.state === 'working' && one.barrier?.barrier === barrier.barrier,
  );
  if (other === undefined) return null;
  return { why: `${shortName(place.rows, other.id)} is still at it`, until: null };
}

/** Not in a slot with time enough left: the next one that can still be had is what it waits for. */
export function slotObstacle(task: Task, yard: Yard, place: Place): Obstacle | null {
  const list = yard.slotLists.find(({ id }) => id === task.slots);
  if (list === undefined) return null;
  const least = Math.max(
    task.floorMinutes,
    Math.ceil(task.workMinutes / Math.max(1, task.crewMax)),
  );
  const slots = list.slots
    .map(({ from, to, noticeHours, booked }) => ({
      start: place.frame.minuteOf(from),
      end: place.frame.minuteOf(to),
      bookBy: booked ? Infinity : place.frame.minuteOf(from) - noticeHours * 60,
    }))
    .sort((a, b) => a.start - b.start);
  // Whoever stands there now has been booked.
  if (slots.some(({ start, end }) => start <= place.now && place.now + least <= end)) return null;
  const next = slots.find(({ start, bookBy }) => start > place.now && bookBy >= place.now);
  return next === undefined
    ? { why: `no slot of ${list.name} is left`, until: null }
    : { why: `the next slot of ${list.name} is ${place.at.words(next.start)}`, until: next.start };
}
