import { reachedAt } from '#cure/clock/cure-clock.ts';
import type { Task, TaskHold } from '../../workload/workload.ts';
import type { Absence } from '../../yard/spaces.ts';
import { shortName } from '../reading/rows.ts';
import { timeOf } from '../reading/time-of.ts';
import { spaceNow, type Obstacle, type Place } from './place.ts';

/** How many are away at this moment, and when the first of them is back. */
function awayNow(
  absences: readonly Absence[],
  { frame, now }: Place,
): { readonly count: number; readonly back: number | null } {
  const away = absences
    .map(({ from, to, count }) => ({ from: frame.minuteOf(from), to: frame.minuteOf(to), count }))
    .filter(({ from, to }) => from <= now && now < to);
  return {
    count: away.reduce((sum, { count }) => sum + count, 0),
    back: away.length === 0 ? null : Math.min(...away.map(({ to }) => to)),
  };
}

/** The space is shut, or has no place left for the smallest crew. */
export function roomObstacle(task: Task, place: Place): Obstacle | null {
  const space = place.spaces.get(task.space);
  // A hold point takes nobody's place.
  if (space === undefined || task.skill === null) return null;
  const opens = place.openFrom(space.hours, place.now);
  if (opens === null) return { why: `${space.name} is shut`, until: null };
  if (opens > place.now) {
    return { why: `${space.name} is shut until ${place.at.words(opens)}`, until: opens };
  }
  const others = place.working.filter(
    (one) => one.id !== task.id && one.space === task.space && one.skill !== null,
  );
  const heads = others.reduce((sum, { crew }) => sum + crew.length, 0);
  const { count, back } = awayNow(space.taken, place);
  if (heads + count + task.crewMin <= space.room) return null;
  const by = others.map(({ id }) => shortName(place.rows, id));
  const whose = by.length === 0 ? 'it is taken' : `taken by ${by.join(', ')}`;
  return {
    why: `there is no room for ${String(task.crewMin)} in ${space.name}: ${whose}`,
    until: heads + task.crewMin <= space.room ? back : null,
  };
}

/** A part that is elsewhere, or that others are on. */
export function partObstacle(task: Task, place: Place): Obstacle | null {
  if (task.parts.length === 0) return null;
  const here = spaceNow(task, place);
  const name = place.rows.parts.get(task.partId)?.part.name ?? task.partId;
  if (here !== task.space) {
    const where = `${name} is in ${place.rows.spaceName(here)}`;
    return { why: `${where}, not in ${place.rows.spaceName(task.space)}`, until: null };
  }
  for (const other of place.working) {
    if (other.id === task.id) continue;
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
  for (const task of place.keepers()) {
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

/** Tools that are out, in use, shut away, or held by a part that is still curing. */
export function toolObstacle(task: Task, place: Place): Obstacle | null {
  for (const { tool, count } of [...task.tools, ...task.holds]) {
    const row = place.tools.get(tool);
    if (row === undefined) continue;
    const opens = place.openFrom(row.hours, place.now);
    if (opens === null || opens > place.now) {
      const when = opens === null ? '' : ` before ${place.at.words(opens)}`;
      return { why: `${row.name} may not be used${when}`, until: opens };
    }
    const { count: out } = awayNow(row.away, place);
    const { count: inUse, back, by } = taken(tool, place);
    if (row.count - out - inUse >= count) continue;
    const whose = by.length === 0 ? 'it is away' : `taken by ${by.join(', ')}`;
    return { why: `there is no ${row.name} free: ${whose}`, until: back };
  }
  return null;
}

/** More than is left of what it uses up. Paused work has taken its share already. */
export function stockObstacle(task: Task, place: Place): Obstacle | null {
  if (task.state === 'paused') return null;
  for (const { stock, amount } of task.consumes) {
    const row = place.yard.stocks.find(({ id }) => id === stock);
    if (row === undefined) continue;
    const left = row.total - (place.used().get(stock) ?? 0);
    // Amounts are sums of binary fractions.
    if (amount <= left + 1e-6) continue;
    const round = (value: number): string => String(Math.round(value * 1000) / 1000);
    const [has, needs] = [round(Math.max(0, left)), round(amount)];
    return {
      why: `${has} ${row.unit} of ${row.name} are left, and it takes ${needs}`,
      until: null,
    };
  }
  return null;
}

export function barrierObstacle(task: Task, place: Place): Obstacle | null {
  const { barrier } = task;
  if (barrier === null) return null;
  const other = place.working.find(
    (one) => one.id !== task.id && one.barrier?.barrier === barrier.barrier,
  );
  if (other === undefined) return null;
  return { why: `${shortName(place.rows, other.id)} is still at it`, until: null };
}

/** Not in a slot with time enough left: the next one that can still be had is what it waits for. */
export function slotObstacle(task: Task, least: number, place: Place): Obstacle | null {
  const { yard, frame, now, at } = place;
  const list = yard.slotLists.find(({ id }) => id === task.slots);
  if (list === undefined) return null;
  const slots = list.slots
    .map(({ from, to, noticeHours, booked }) => ({
      start: frame.minuteOf(from),
      end: frame.minuteOf(to),
      bookBy: booked ? Infinity : frame.minuteOf(from) - noticeHours * 60,
    }))
    .sort((a, b) => a.start - b.start);
  // Whoever stands there now has been booked.
  if (slots.some(({ start, end }) => start <= now && now + least <= end)) return null;
  const next = slots.find(({ start, bookBy }) => start > now && bookBy >= now);
  return next === undefined
    ? { why: `no slot of ${list.name} is left`, until: null }
    : { why: `the next slot of ${list.name} is ${at.words(next.start)}`, until: next.start };
}
