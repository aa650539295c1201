import { busyAfter } from './busy.ts';
import type { Compiled, CompiledActivity, CompiledMode } from './compiled.ts';
import type { CrewOption } from './crews.ts';
import { anchorBound, anchorReaching, openUntil } from './inverse.ts';
import { shortageEnd } from './profile.ts';
import {
  endOf,
  minutesBetween,
  nextInside,
  spanAfter,
  startEndingFrom,
  type Spans,
  type WorkTable,
} from './spans.ts';
import type { Air, State } from './state.ts';

/** Where `earliestFit` leaves its answer, so that the inner loop allocates nothing. */
export interface Fit {
  start: number;
  finish: number;
}

const NONE = -1;

/** The first minute from `t` on at which the calendar lets the mode start; the finish goes to `out`. -1 if none. */
export function calendarStart(
  mode: CompiledMode,
  table: WorkTable,
  minutes: number,
  from: number,
  horizon: number,
  out: Fit,
): number {
  let s = from < 0 ? 0 : from;
  for (;;) {
    if (mode.forbidden !== null) s = outside(mode.forbidden, s);
    if (mode.crews === null) break;
    let at: number;
    if (mode.pauses) at = minutes > 0 ? nextInside(table.work, s) : s;
    else at = startInOnePiece(mode, table, minutes, s);
    if (at < 0) return NONE;
    if (at === s) break;
    s = at;
  }
  const f = mode.pauses && minutes > 0 ? endOf(table.work, s, minutes) : s + minutes;
  if (f < 0 || f > horizon) return NONE;
  out.start = s;
  out.finish = f;
  return s;
}

/** A start is a working minute even where breaks are relieved: somebody has to begin. */
function startInOnePiece(
  mode: CompiledMode,
  table: WorkTable,
  minutes: number,
  from: number,
): number {
  const spans = mode.relieved ? table.shifts : table.work;
  let s = from;
  for (let i = spanAfter(spans, s); i < spans.count; i += 1) {
    if (spans.starts[i] > s) s = spans.starts[i];
    if (mode.relieved) {
      const at = nextInside(table.work, s);
      if (at < 0) return NONE;
      if (at >= spans.ends[i]) continue;
      s = at;
    }
    if (s + minutes <= spans.ends[i]) return s;
  }
  return NONE;
}

/** The first minute from `t` on that no span holds. */
function outside(spans: Spans, t: number): number {
  const i = spanAfter(spans, t);
  return i < spans.count && spans.starts[i] <= t ? spans.ends[i] : t;
}

/** The earliest start whose finish is no earlier than `finish`; may need moving on to a permitted one. */
export function startFor(
  mode: CompiledMode,
  table: WorkTable,
  minutes: number,
  finish: number,
): number {
  if (!mode.pauses || minutes === 0) return finish - minutes;
  const s = startEndingFrom(table.work, finish, minutes);
  return s < 0 ? Infinity : s;
}

/** When the first obstacle among the crew's other work ends, -1 where there is none. */
function crewConflict(
  state: State,
  mode: CompiledMode,
  option: CrewOption,
  s: number,
  f: number,
): number {
  for (const builder of option.builders) {
    const list = state.busy[builder];
    for (let i = busyAfter(list, s); i < list.count && list.starts[i] < f; i += 1) {
      if (!mode.pauses) return list.ends[i];
      const from = Math.max(s, list.starts[i]);
      if (minutesBetween(option.table.work, from, Math.min(f, list.ends[i])) > 0)
        return list.ends[i];
    }
  }
  return NONE;
}

function resourceConflict(
  state: State,
  mode: CompiledMode,
  table: WorkTable,
  s: number,
  f: number,
): number {
  for (const use of mode.uses) {
    const profile = state.profiles[use.resource];
    if (use.whole) {
      const end = shortageEnd(profile, s, f, use.amount);
      if (end >= 0) return end;
      continue;
    }
    const { work } = table;
    for (let i = spanAfter(work, s); i < work.count && work.starts[i] < f; i += 1) {
      const from = Math.max(s, work.starts[i]);
      const end = shortageEnd(profile, from, Math.min(f, work.ends[i]), use.amount);
      if (end >= 0) return end;
    }
  }
  return NONE;
}

/** The end of the first span of `air` that meets [start, end), -1 if none. */
function met(air: Air, start: number, end: number): number {
  for (let i = 0; i < air.count; i += 1)
    if (air.starts[i] < end && air.ends[i] > start) return air.ends[i];
  return NONE;
}

function dustConflict(
  compiled: Compiled,
  state: State,
  mode: CompiledMode,
  table: WorkTable,
  s: number,
  f: number,
): number {
  const { settling, dustReaches } = compiled.problem.spaces[mode.space];
  for (const space of dustReaches) {
    const open = state.open[space];
    if (open.count === 0) continue;
    if (!mode.pauses) {
      const end = met(open, s, f + settling);
      if (end >= 0) return end;
      continue;
    }
    const { work } = table;
    for (let i = spanAfter(work, s); i < work.count && work.starts[i] < f; i += 1) {
      const segmentEnd = Math.min(f, work.ends[i]);
      const end = met(open, Math.max(s, work.starts[i]), segmentEnd + settling);
      // A start after this segment may let the surface close during the pause.
      if (end >= 0) return Math.min(end, segmentEnd);
    }
  }
  return NONE;
}

/** Where lags of the activity to itself (pot life) put its start for this finish; `s` if they hold. */
function ownStart(
  compiled: Compiled,
  state: State,
  activity: CompiledActivity,
  mode: CompiledMode,
  s: number,
  f: number,
): number {
  let at = s;
  for (const arc of activity.own) {
    if (arc.choice >= 0 && state.branch[arc.choice] !== arc.branch) continue;
    const from = arc.fromFinish ? f : s;
    const to = arc.toFinish ? f : s;
    const limit = anchorBound(compiled.problem, arc, from);
    if (arc.open ? to >= limit : to <= limit) continue;
    // A later start moves both ends alike; only a table can then hold what it did not before.
    if (arc.fn.kind === 'constant' && !(mode.pauses && arc.fromFinish !== arc.toFinish))
      return Infinity;
    const skips = !arc.open && !arc.fromFinish && arc.fn.kind === 'table';
    at = Math.max(at, s + 1, skips ? anchorReaching(compiled.problem, arc, to) : 0);
  }
  return at;
}

/**
 * The earliest start from `from` on, with a finish no earlier than `leastFinish`, at which
 * calendar, crew, resources, air and own lags all agree. Gives up (false) once the finish
 * would be `limit` or more. `relieved`: may begin in a relieved break. Every jump skips only starts that the obstacle rules out.
 */
export function earliestFit(
  compiled: Compiled,
  state: State,
  activity: CompiledActivity,
  mode: CompiledMode,
  option: CrewOption | null,
  from: number,
  leastFinish: number,
  limit: number,
  out: Fit,
  relieved = false,
): boolean {
  const table = option === null ? compiled.anyTime : relieved ? option.relieved : option.table;
  const minutes = option === null ? mode.minutes : option.minutes;
  let s = from;
  if (leastFinish > s + minutes) s = Math.max(s, startFor(mode, table, minutes, leastFinish));
  for (;;) {
    if (s + minutes >= limit) return false;
    s = calendarStart(mode, table, minutes, s, compiled.horizon, out);
    const f = out.finish;
    if (s < 0 || f >= limit) return false;
    if (f > s) {
      let jump = option === null ? NONE : crewConflict(state, mode, option, s, f);
      if (jump < 0 && mode.uses.length > 0) jump = resourceConflict(state, mode, table, s, f);
      if (jump < 0 && mode.dusty) jump = dustConflict(compiled, state, mode, table, s, f);
      if (jump >= 0) {
        s = jump;
        continue;
      }
    }
    if (mode.sensitive) {
      const until = openUntil(compiled.problem, activity.surfaces, f);
      const jump = until > s ? met(state.dust[mode.space], s, until) : NONE;
      if (jump >= 0) {
        s = jump;
        continue;
      }
    }
    if (activity.own.length > 0) {
      const moved = ownStart(compiled, state, activity, mode, s, f);
      if (moved > s) {
        s = moved;
        continue;
      }
    }
    return true;
  }
}
