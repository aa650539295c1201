import { endOf, meets, nextInside, spanAfter, type WorkTable } from '../compiled/spans.ts';
import type { CrewOption } from '../compiled/crews.ts';
import type { CompiledMode } from '../compiled/mode.ts';
import { busyAfter, busyBefore, type BusyList } from '../state/busy.ts';
import type { State } from '../state/state.ts';
import type { Work } from '../state/work.ts';

/** Where `earliestFit` leaves its answer, so that the inner loop allocates nothing. */
export interface Fit {
  start: number;
  finish: number;
}

const NONE = -1;

/**
 * The first minute from `from` on at which the crew has `taken` minutes in one piece, in a shift that
 * they share and with no other work; -1 where there is none before `limit` less `minutes`.
 */
function pieceStart(
  state: State,
  mode: CompiledMode,
  table: WorkTable,
  booked: readonly number[],
  taken: number,
  from: number,
  latest: number,
): number {
  const { work } = table;
  const spans = mode.relieved ? table.shifts : work;
  const { starts, ends, count } = spans;
  const { cursor, busy } = state;
  const heads = taken > 0 ? booked.length : 0;
  let s = from < 0 ? 0 : from;
  for (let k = 0; k < heads; k += 1) cursor[k] = -1;
  for (let i = spanAfter(spans, s); i < count;) {
    if (starts[i] > s) s = starts[i];
    if (mode.relieved) {
      // A start is a working minute even where breaks are relieved: somebody has to begin.
      const at = nextInside(work, s);
      if (at < 0) return NONE;
      if (at >= ends[i]) {
        i += 1;
        continue;
      }
      s = at;
    }
    if (s >= latest) return NONE;
    const e = s + taken;
    if (e > ends[i]) {
      i += 1;
      continue;
    }
    let until = s;
    for (let k = 0; k < heads; k += 1) {
      const list: BusyList = busy[booked[k]];
      let c = cursor[k] < 0 ? busyAfter(list, s) : cursor[k];
      while (c < list.count && list.ends[c] <= s) c += 1;
      cursor[k] = c;
      if (c < list.count && list.starts[c] < e) {
        until = list.ends[c];
        break;
      }
    }
    if (until === s) return s;
    s = until;
    while (i < count && ends[i] <= s) i += 1;
  }
  return NONE;
}

/**
 * When the last obstacle among the crew's other work in [s, f) ends, -1 where there is none. Work
 * that starts later finishes no earlier, so that until that moment it would still meet the obstacle.
 */
export function crewConflict(
  state: State,
  { mode, option, table }: Work,
  s: number,
  f: number,
): number {
  if (option === null) return NONE;
  const { booked } = option;
  let last = NONE;
  for (let k = 0; k < booked.length; k += 1) {
    const list = state.busy[booked[k]];
    for (let i = busyBefore(list, f); i >= 0; i -= 1) {
      const end = list.ends[i];
      if (end <= s || end <= last) break;
      if (!mode.pauses || meets(table.work, Math.max(s, list.starts[i]), Math.min(f, end))) {
        last = end;
        break;
      }
    }
  }
  return last;
}

/**
 * The first start from `from` on that lets work which may pause meet none of the crew's other work;
 * -1 where none is before `last` with a finish before `limit`. Start and finish go to `out`.
 */
function pausingStart(
  state: State,
  work: Work,
  from: number,
  last: number,
  limit: number,
  out: Fit,
): number {
  const { table, minutes } = work;
  let s = from < 0 ? 0 : from;
  for (;;) {
    s = nextInside(table.work, s);
    if (s < 0 || s >= last || s + minutes >= limit) return NONE;
    const f = endOf(table.work, s, minutes);
    if (f < 0 || f >= limit) return NONE;
    const at = crewConflict(state, work, s, f);
    if (at < 0) {
      out.start = s;
      out.finish = f;
      return s;
    }
    s = at;
  }
}

/**
 * The first start from `from` on that calendars and the crew's other work allow, of work that
 * nothing else binds to moments; -1 where none starts before `last` and finishes before `limit`.
 * Start and finish go to `out`.
 */
export function crewStart(
  state: State,
  work: Work,
  option: CrewOption,
  from: number,
  last: number,
  limit: number,
  horizon: number,
  out: Fit,
): number {
  const { mode, table, minutes } = work;
  if (mode.pauses && minutes > 0)
    return pausingStart(state, work, from, last, Math.min(limit, horizon + 1), out);
  const latest = Math.min(last, Math.min(limit, horizon - mode.cleanDown + 1) - minutes);
  const taken = minutes + mode.cleanDown;
  if (mode.pauses) {
    // No minutes of work that may pause: any minute does.
    const s = from < 0 ? 0 : from;
    if (s >= latest) return NONE;
    out.start = s;
    out.finish = s;
    return s;
  }
  const s = pieceStart(state, mode, table, option.booked, taken, from, latest);
  out.start = s;
  out.finish = s + minutes;
  return s;
}

/**
 * A moment before which this builder alone, whatever the others of a crew do, cannot begin work of
 * `mode` that takes `least` minutes or more; Infinity where never.
 */
export function aloneFrom(
  state: State,
  mode: CompiledMode,
  table: WorkTable,
  builder: number,
  least: number,
  from: number,
): number {
  if (!mode.pauses) {
    const one = state.single;
    one[0] = builder;
    const at = pieceStart(state, mode, table, one, least + mode.cleanDown, from, Infinity);
    return at < 0 ? Infinity : at;
  }
  if (least === 0) return from;
  const list = state.busy[builder];
  let s = from;
  for (let i = busyAfter(list, s); ; i += 1) {
    s = nextInside(table.work, s);
    if (s < 0) return Infinity;
    while (i < list.count && list.ends[i] <= s) i += 1;
    if (i >= list.count || list.starts[i] > s) return s;
    s = list.ends[i];
  }
}
