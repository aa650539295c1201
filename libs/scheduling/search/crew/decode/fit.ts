import { functionFor } from '../../../model/lag.ts';
import { crewConflict, crewStart, type Fit } from './crew-fit.ts';
import type { Compiled } from '../compiled/compiled.ts';
import { dustConflict, dustMet, sensitiveUntil } from '../places/dust.ts';
import { anchorBound, anchorReaching } from '../compiled/inverse.ts';
import type { CompiledMode } from '../compiled/mode.ts';
import { shortageEnd } from '../state/profile.ts';
import { slotStart } from './slots.ts';
import {
  endOf,
  nextInside,
  spanAfter,
  startEndingFrom,
  type Spans,
  type WorkTable,
} from '../compiled/spans.ts';
import type { State } from '../state/state.ts';
import type { Work } from '../state/work.ts';
import { tangleConflict } from '../places/tangle.ts';
import type { Window } from './window.ts';

const NONE = -1;

/**
 * The first minute from `from` on at which calendars, slots and forbidden moments let the work
 * start; the finish goes to `out`. -1 if none.
 */
function calendarStart(work: Work, from: number, horizon: number, out: Fit): number {
  const { mode, table, minutes } = work;
  const { cleanDown } = mode;
  const taken = minutes + cleanDown;
  // No minutes of work that nobody is needed for are anywhere.
  const timed = mode.timed && (taken > 0 || mode.crews !== null);
  let s = from < 0 ? 0 : from;
  while (s <= horizon) {
    if (mode.forbidden !== null) s = outside(mode.forbidden, s);
    if (timed) {
      let at: number;
      if (mode.pauses) at = minutes > 0 ? nextInside(table.work, s) : s;
      else at = startInOnePiece(mode, table, taken, s);
      if (at < 0) return NONE;
      // What a calendar moved to, it allows: only forbidden starts are asked again.
      s = at;
      if (mode.forbidden !== null && outside(mode.forbidden, s) !== s) continue;
    }
    const f = mode.pauses && minutes > 0 ? endOf(table.work, s, minutes) : s + minutes;
    if (f < 0 || f + cleanDown > horizon) return NONE;
    if (mode.slots !== null) {
      const at = slotStart(mode.slots, s, f + cleanDown);
      if (at > s) {
        s = at;
        continue;
      }
    }
    if (mode.forbiddenFinish !== null) {
      const allowed = outside(mode.forbiddenFinish, f);
      if (allowed > f) {
        s = Math.max(s + 1, startFor(work, allowed));
        continue;
      }
    }
    out.start = s;
    out.finish = f;
    return s;
  }
  return NONE;
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
function startFor({ mode, table, minutes }: Work, finish: number): number {
  if (!mode.pauses || minutes === 0) return finish - minutes;
  const s = startEndingFrom(table.work, finish, minutes);
  return s < 0 ? Infinity : s;
}

function resourceConflict(state: State, { mode, table }: Work, s: number, f: number): number {
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

/** Where lags of the activity to itself (pot life) put its start for this finish; -1 where they hold. */
function ownConflict(compiled: Compiled, state: State, work: Work, s: number, f: number): number {
  const { activity, mode } = work;
  let at = NONE;
  for (const arc of activity.own) {
    if (arc.choice >= 0 && state.branch[arc.choice] !== arc.branch) continue;
    const from = arc.fromFinish ? f : s;
    const to = arc.toFinish ? f : s;
    const limit = anchorBound(compiled.problem, arc, mode.index, from);
    if (arc.open ? to >= limit : to <= limit) continue;
    // A later start moves both ends alike; only a table can then hold what it did not before.
    const fn = functionFor(arc.fns, mode.index);
    if (fn.kind === 'constant' && !(mode.pauses && arc.fromFinish !== arc.toFinish))
      return Infinity;
    const skips = !arc.open && !arc.fromFinish && fn.kind === 'table';
    at = Math.max(at, s + 1, skips ? anchorReaching(compiled.problem, arc, mode.index, to) : 0);
  }
  return at;
}

/**
 * The earliest start within `window`, its latest start and finish aside, at which calendar, crew,
 * resources, air, parts, holds and own lags all agree. Gives up (false) once the start
 * would be `last` or more, or the finish `limit`. Every jump skips only starts that the obstacle rules out.
 */
export function earliestFit(
  compiled: Compiled,
  state: State,
  work: Work,
  window: Window,
  limit: number,
  last: number,
  out: Fit,
  from = window.startFrom,
): boolean {
  const { activity, mode, minutes, option } = work;
  const { horizon } = compiled;
  const plain = option !== null && !mode.bound;
  let s = from;
  if (window.finishFrom > s + minutes) s = Math.max(s, startFor(work, window.finishFrom));
  for (;;) {
    state.tries += 1;
    if (s >= last || s + minutes >= limit) return false;
    s = plain
      ? crewStart(state, work, option, s, last, limit, horizon, out)
      : calendarStart(work, s, horizon, out);
    const f = out.finish;
    if (s < 0 || f >= limit) return false;
    const e = f + mode.cleanDown;
    let jump = NONE;
    if (e > s) {
      if (!plain) jump = crewConflict(state, work, s, e);
      if (jump < 0 && mode.uses.length > 0) jump = resourceConflict(state, work, s, e);
      if (jump < 0 && mode.dusty && f > s) jump = dustConflict(compiled, state, work, s, f);
    }
    if (jump < 0 && mode.sensitive) {
      const until = sensitiveUntil(compiled, activity.index, mode, f);
      if (until > s) jump = dustMet(compiled, state, mode.space, s, until);
    }
    if (jump < 0 && activity.own.length > 0) jump = ownConflict(compiled, state, work, s, f);
    if (jump < 0 && activity.tangled) jump = tangleConflict(compiled, state, work, s, f);
    if (jump < 0) return true;
    s = jump;
  }
}
