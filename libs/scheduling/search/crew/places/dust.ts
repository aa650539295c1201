import { firstMet, met, metOutside, pushAir, type Air } from './air.ts';
import type { Compiled } from '../compiled/compiled.ts';
import { lastOpening } from '../compiled/inverse.ts';
import type { CompiledMode } from '../compiled/mode.ts';
import { spanAfter, type Spans } from '../compiled/spans.ts';
import { crewOf, isPresent, type State } from '../state/state.ts';
import type { Work } from '../state/work.ts';

/** Until when work of this finish may meet no dust where it is done: wet itself, or a plain surface. */
export function sensitiveUntil(
  compiled: Compiled,
  a: number,
  mode: CompiledMode,
  finish: number,
): number {
  const { surfaces } = compiled.activities[a];
  if (surfaces.length === 0) return mode.wet ? finish : -Infinity;
  const until = lastOpening(compiled.problem, surfaces, mode.index, finish);
  return mode.wet ? Math.max(until, finish) : until;
}

/** Adds a span of dust to all that it reaches while no barrier on the way is closed. */
function emit(compiled: Compiled, state: State, space: number, start: number, end: number): void {
  for (const reach of compiled.reach[space]) {
    const air = state.dust[reach.space];
    if (reach.barrier < 0) {
      pushAir(air, start, end);
      continue;
    }
    const closed = state.closed[reach.barrier];
    let from = start;
    for (let i = 0; i <= closed.count && from < end; i += 1) {
      const until = i < closed.count ? Math.min(closed.starts[i], end) : end;
      if (until > from) pushAir(air, from, until);
      if (i < closed.count) from = Math.max(from, closed.ends[i]);
    }
  }
}

/** The working time within which placed work pauses, null where it is in one piece. */
function pausing(compiled: Compiled, state: State, a: number, mode: CompiledMode): Spans | null {
  if (!mode.pauses || compiled.activities[a].frozen !== null) return null;
  return (crewOf(compiled, state, a)?.table ?? mode.table).work;
}

/** Adds the dust of placed work, each working span with its settling. */
function pollute(compiled: Compiled, state: State, a: number, mode: CompiledMode): void {
  const s = state.start[a];
  const f = state.finish[a];
  const { settling } = compiled.problem.spaces[mode.space];
  const work = pausing(compiled, state, a, mode);
  if (work === null) {
    emit(compiled, state, mode.space, s, f + settling);
    return;
  }
  for (let i = spanAfter(work, s); i < work.count && work.starts[i] < f; i += 1) {
    const start = Math.max(s, work.starts[i]);
    emit(compiled, state, mode.space, start, Math.min(f, work.ends[i]) + settling);
  }
}

/** Adds what placed work does to the air where it is done: its dust, and what is wet or open there. */
export function breathe(compiled: Compiled, state: State, a: number, mode: CompiledMode): void {
  const s = state.start[a];
  const f = state.finish[a];
  if (mode.dusty && f > s) pollute(compiled, state, a, mode);
  if (!mode.sensitive) return;
  const until = sensitiveUntil(compiled, a, mode, f);
  if (until > s) pushAir(state.open[mode.space], s, until);
}

/** Takes back what `breathe` added last, where the air is not wide: its spans lie on stacks. */
export function unbreathe(compiled: Compiled, state: State, a: number, mode: CompiledMode): void {
  const s = state.start[a];
  const f = state.finish[a];
  if (mode.dusty && f > s) {
    const work = pausing(compiled, state, a, mode);
    let spans = 1;
    if (work !== null) {
      spans = 0;
      for (let i = spanAfter(work, s); i < work.count && work.starts[i] < f; i += 1) spans += 1;
    }
    for (const { space } of compiled.reach[mode.space]) state.dust[space].count -= spans;
  }
  if (mode.sensitive && sensitiveUntil(compiled, a, mode, f) > s) state.open[mode.space].count -= 1;
}

/** The end of what dust made in [start, end) would meet, or the moment a barrier closes on it; -1 where nothing. */
function reached(
  compiled: Compiled,
  state: State,
  mode: CompiledMode,
  start: number,
  end: number,
): number {
  const reaches = compiled.reach[mode.space];
  for (let i = 0; i < reaches.length; i += 1) {
    const { space, barrier } = reaches[i];
    const open = state.open[space];
    if (open.count === 0) continue;
    const at =
      barrier < 0 ? met(open, start, end) : metOutside(open, state.closed[barrier], start, end);
    if (at >= 0) return at;
  }
  return -1;
}

/** When dusty work in [s, f) could go on after the first open surface in its way; -1 where there is none. */
export function dustConflict(
  compiled: Compiled,
  state: State,
  { mode, table }: Work,
  s: number,
  f: number,
): number {
  const { settling } = compiled.problem.spaces[mode.space];
  if (!mode.pauses) return reached(compiled, state, mode, s, f + settling);
  const { work } = table;
  for (let i = spanAfter(work, s); i < work.count && work.starts[i] < f; i += 1) {
    const segmentEnd = Math.min(f, work.ends[i]);
    const end = reached(compiled, state, mode, Math.max(s, work.starts[i]), segmentEnd + settling);
    // A start after this segment may let the surface close during the pause.
    if (end >= 0) return Math.min(end, segmentEnd);
  }
  return -1;
}

/** Barriers are closed from the finish of an act that closes them to the start of the next act. */
function closeBarriers(compiled: Compiled, state: State): void {
  state.acts.forEach((acts, barrier) => {
    const closed = state.closed[barrier];
    closed.count = 0;
    const order = acts.toSorted((x, y) => state.start[x] - state.start[y]);
    let from = compiled.problem.barriers[barrier].closed ? -(2 ** 30) : Infinity;
    for (const a of order) {
      if (from < state.start[a]) pushAir(closed, from, state.start[a]);
      const mode = compiled.activities[a].modes[state.mode[a]];
      from = mode.closes ? state.finish[a] : Infinity;
    }
    if (from < Infinity) pushAir(closed, from, 2 ** 30);
  });
}

/** Until when a film of placed work is open; for covers that are still to come, as long as was kept for them. */
function filmEnd(compiled: Compiled, state: State, film: number): number {
  const { activity, until, coveredBy } = compiled.films[film];
  let end = Infinity;
  let expected = false;
  for (const cover of coveredBy) {
    if (!isPresent(compiled, state, cover)) continue;
    expected = true;
    if (state.placed[cover] === 1) end = Math.min(end, state.start[cover]);
  }
  if (end < Infinity) return end;
  if (expected) return state.filmTo[film];
  return lastOpening(compiled.problem, [until], state.mode[activity], state.finish[activity]);
}

/** Whether covers of the film are still to come and none is placed. */
export const isUncovered = (compiled: Compiled, state: State, film: number): boolean => {
  const covers = compiled.films[film].coveredBy.filter((c) => isPresent(compiled, state, c));
  return covers.length > 0 && covers.every((c) => state.placed[c] === 0);
};

/** The first move of the part, `but` one, to be finished after `t`; -1 where there is none. */
function moveAfter(compiled: Compiled, state: State, part: number, but: number, t: number): number {
  let first = -1;
  for (const a of state.onPart[part]) {
    if (a === but || state.finish[a] <= t) continue;
    if (compiled.activities[a].modes[state.mode[a]].movesTo < 0) continue;
    if (first < 0 || state.finish[a] < state.finish[first]) first = a;
  }
  return first;
}

/** Where a film is and when: with its part, in both spaces while that is moved. */
function filmSpans(
  compiled: Compiled,
  state: State,
  film: number,
  end: number,
  visit: (space: number, start: number, end: number) => void,
): void {
  const { activity, part } = compiled.films[film];
  const start = state.start[activity];
  let { space } = compiled.activities[activity].modes[state.mode[activity]];
  let from = start;
  let move = part < 0 ? -1 : moveAfter(compiled, state, part, activity, start);
  while (move >= 0) {
    const finish = state.finish[move];
    const until = Math.min(end, finish);
    if (space >= 0 && from < until) visit(space, from, until);
    space = compiled.activities[move].modes[state.mode[move]].movesTo;
    from = Math.max(start, state.start[move]);
    move = moveAfter(compiled, state, part, activity, finish);
  }
  if (space >= 0 && from < end) visit(space, from, end);
}

/** Makes all lists of dust, of what is open and of closed barriers anew from what is placed or tried. */
export function rebuildAir(compiled: Compiled, state: State): void {
  state.staleAir = false;
  for (const air of state.dust) air.count = 0;
  for (const air of state.open) air.count = 0;
  closeBarriers(compiled, state);
  for (const a of compiled.airy) {
    if (state.placed[a] === 0) continue;
    const { modes, films } = compiled.activities[a];
    breathe(compiled, state, a, modes[state.mode[a]]);
    for (const film of films)
      if (state.covering[film] === 0)
        filmSpans(compiled, state, film, filmEnd(compiled, state, film), (space, from, to) => {
          pushAir(state.open[space], from, to);
        });
  }
}

/** Sees to it that the lists are those of what is placed. */
export function freshAir(compiled: Compiled, state: State): void {
  if (compiled.wideAir && state.staleAir) rebuildAir(compiled, state);
}

/** When the dust ends that a film, placed or tried, meets where it is and will be carried; -1 where none. */
export function filmConflict(compiled: Compiled, state: State, film: number): number {
  let first = -1;
  filmSpans(compiled, state, film, filmEnd(compiled, state, film), (space, from, to) => {
    const at = met(state.dust[space], from, to);
    if (at >= 0 && (first < 0 || at < first)) first = at;
  });
  return first;
}

/** Where the dust of `dust` meets what is open: the moment at which the first such meeting ends; -1 if none. */
function meeting(dust: Air, open: Air): number {
  for (let i = 0; i < dust.count; i += 1)
    for (let k = 0; k < open.count; k += 1) {
      if (dust.starts[i] >= open.ends[k] || open.starts[k] >= dust.ends[i]) continue;
      return Math.min(dust.ends[i], open.ends[k]);
    }
  return -1;
}

/** As `meeting`, over all spaces. */
export function anyMeeting(state: State): number {
  for (let space = 0; space < state.dust.length; space += 1) {
    const at = meeting(state.dust[space], state.open[space]);
    if (at >= 0) return at;
  }
  return -1;
}

/** Until when the film just laid can wait for its covers: the first dust where it is, or for ever. */
export function keepFilm(compiled: Compiled, state: State, film: number): void {
  const { activity } = compiled.films[film];
  const never = compiled.horizon + 1;
  let until = never;
  filmSpans(compiled, state, film, never, (space, from, to) => {
    const first = firstMet(state.dust[space], Math.max(from, state.finish[activity]), to);
    until = Math.min(until, Math.max(first, state.finish[activity]));
  });
  state.filmTo[film] = until;
}
