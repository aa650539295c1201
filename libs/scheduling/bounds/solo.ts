import { closesAt } from '../model/lag.ts';
import type { Interval, LagFunction, Problem } from '../model/problem.ts';
import {
  endOf,
  minuteAt,
  minutesBefore,
  nextInside,
  spanAfter,
  startEndingFrom,
  type Spans,
} from '../search/crew/compiled/spans.ts';
import { earliestReaching } from '../model/lag-inverse.ts';

/** One way to do an activity as if it were alone in the yard. */
export interface Solo {
  /** The spans of which one has to hold the work and its clean-down; null: any time will do. */
  readonly piece: Spans | null;
  /** The working minutes of work that pauses outside them; null where it does not. */
  readonly pausing: Spans | null;
  readonly minutes: number;
  readonly cleanDown: number;
  readonly startHoles: Spans | null;
  readonly finishHoles: Spans | null;
  /** Sorted by start, one of them to be used; null where none is asked for. */
  readonly slots: readonly Interval[] | null;
  /** Pot lives: the finish is no later than these allow for the start. */
  readonly potLives: readonly LagFunction[];
}

export interface Fit {
  start: number;
  finish: number;
}

/** The end of the span that holds `t`; `t` where none does. */
export function outside(spans: Spans | null, t: number): number {
  if (spans === null) return t;
  const i = spanAfter(spans, t);
  return i < spans.count && spans.starts[i] <= t ? spans.ends[i] : t;
}

/** The last minute up to `t` that no span holds, which may be before time began. */
function outsideBackwards(spans: Spans | null, t: number): number {
  if (spans === null) return t;
  const i = spanAfter(spans, t);
  return i < spans.count && spans.starts[i] <= t ? spans.starts[i] - 1 : t;
}

/** The first start from `s` on at which a span holds so many minutes; -1 if none. */
export function fitsFrom(spans: Spans, s: number, minutes: number): number {
  for (let i = spanAfter(spans, s); i < spans.count; i += 1) {
    const at = Math.max(s, spans.starts[i]);
    if (at + minutes <= spans.ends[i]) return at;
  }
  return -1;
}

const pauses = (solo: Solo): boolean => solo.pausing !== null && solo.minutes > 0;

/** When so many minutes end that start at `s`, a minute that its hours permit; -1 where its hours end before. */
export const endIn = (pausing: Spans | null, s: number, minutes: number): number =>
  pausing !== null && minutes > 0 ? endOf(pausing, s, minutes) : s + minutes;

/** The earliest start whose finish is no earlier than `finish` if it takes `minutes`. */
export function startFor(pausing: Spans | null, minutes: number, finish: number): number {
  if (pausing === null || minutes === 0) return finish - minutes;
  const s = startEndingFrom(pausing, finish, minutes);
  return s < 0 ? Infinity : s;
}

/** `s` if a slot holds the work, else a later start that is worth trying; -1 if none. */
function slotFrom({ slots, cleanDown }: Solo, s: number, f: number): number {
  if (slots === null) return s;
  let next = -1;
  for (const { start, end } of slots) {
    if (start <= s && f + cleanDown <= end) return s;
    if (start > s && next < 0) next = start;
  }
  return next;
}

/** `s` if every pot life holds, else a later start that is worth trying; -1 if none. */
function potLifeFrom(problem: Problem, solo: Solo, s: number, f: number): number {
  let at = s;
  for (const fn of solo.potLives) {
    if (f <= closesAt(problem, fn, s)) continue;
    if (fn.kind === 'constant' && !pauses(solo)) return -1;
    const reach = fn.kind === 'constant' ? s + 1 : earliestReaching(problem, fn, f);
    if (reach === Infinity) return -1;
    at = Math.max(at, s + 1, reach);
  }
  return at;
}

/** The first start from `from` on that its hours, holes, slots and pot lives permit; false if there is none. */
export function earliestAlone(problem: Problem, solo: Solo, from: number, out: Fit): boolean {
  let s = Math.max(0, from);
  for (;;) {
    s = outside(solo.startHoles, s);
    const length = solo.minutes + solo.cleanDown;
    let at = s;
    if (solo.pausing !== null) at = solo.minutes > 0 ? nextInside(solo.pausing, s) : s;
    else if (solo.piece !== null && length > 0) at = fitsFrom(solo.piece, s, length);
    if (at < 0) return false;
    if (at !== s) {
      s = at;
      continue;
    }
    const f = endIn(solo.pausing, s, solo.minutes);
    if (f < 0 || f + solo.cleanDown > problem.horizon) return false;
    const hole = outside(solo.finishHoles, f);
    if (hole > f) {
      s = Math.max(s + 1, startFor(solo.pausing, solo.minutes, hole));
      if (s === Infinity) return false;
      continue;
    }
    at = slotFrom(solo, s, f);
    if (at === s) at = potLifeFrom(problem, solo, s, f);
    if (at < 0) return false;
    if (at === s) {
      out.start = s;
      out.finish = f;
      return true;
    }
    s = at;
  }
}

function latestInOnePiece(spans: Spans, minutes: number, start: number): number {
  for (let i = Math.min(spanAfter(spans, start), spans.count - 1); i >= 0; i -= 1) {
    const s = Math.min(start, spans.ends[i] - minutes);
    if (s >= spans.starts[i]) return s;
  }
  return -1;
}

function latestWithPauses(spans: Spans, minutes: number, start: number, finish: number): number {
  const byFinish = minutesBefore(spans, finish) - minutes;
  const byStart = minutesBefore(spans, start + 1) - 1;
  const k = Math.min(byFinish, byStart);
  return k < 0 ? -1 : minuteAt(spans, k);
}

/** The latest start no later than `s` within its hours, with a finish no later than `finish`; -1 if none. */
function latestInHours(solo: Solo, s: number, finish: number): number {
  const { pausing, piece, minutes, cleanDown } = solo;
  if (pausing !== null && minutes > 0) return latestWithPauses(pausing, minutes, s, finish);
  const by = Math.min(s, finish - minutes);
  if (by < 0 || pausing !== null || piece === null || minutes + cleanDown === 0) return by;
  return latestInOnePiece(piece, minutes + cleanDown, by);
}

function latestOutsideHoles(solo: Solo, start: number, finish: number): number {
  let s = start;
  let by = finish;
  while (s >= 0) {
    const at = latestInHours(solo, outsideBackwards(solo.startHoles, s), by);
    if (at < 0) return -1;
    const f = endIn(solo.pausing, at, solo.minutes);
    const before = outsideBackwards(solo.finishHoles, f);
    if (at === s && before === f) return s;
    s = at;
    by = Math.min(by, before);
  }
  return -1;
}

/**
 * The latest start no later than `start`, with a finish no later than `finish`, that its hours,
 * holes and slots permit; -1 if there is none. Pot lives are not looked at.
 */
export function latestAlone(solo: Solo, start: number, finish: number): number {
  const { slots, cleanDown } = solo;
  if (slots === null) return latestOutsideHoles(solo, start, finish);
  let latest = -1;
  for (const slot of slots) {
    const s = latestOutsideHoles(solo, start, Math.min(finish, slot.end - cleanDown));
    if (s >= slot.start) latest = Math.max(latest, s);
  }
  return latest;
}
