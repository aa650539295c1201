import { addAir, meeting, removeAir } from './air.ts';
import type { Compiled } from '../compiled/compiled.ts';
import { lastOpening } from '../compiled/inverse.ts';
import { dustMet, firstDust } from './dust.ts';
import { isPresent, type State } from '../state/state.ts';

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
export function isUncovered(compiled: Compiled, state: State, film: number): boolean {
  let expected = false;
  for (const cover of compiled.films[film].coveredBy) {
    if (!isPresent(compiled, state, cover)) continue;
    if (state.placed[cover] === 1) return false;
    expected = true;
  }
  return expected;
}

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

/** Where a film is and when, as flat space, start, end triples: with its part, in both spaces while that is moved. */
function spansOfFilm(
  compiled: Compiled,
  state: State,
  film: number,
  end: number,
  out: number[],
): void {
  out.length = 0;
  const { activity, part } = compiled.films[film];
  const start = state.start[activity];
  let { space } = compiled.activities[activity].modes[state.mode[activity]];
  let from = start;
  let move = part < 0 ? -1 : moveAfter(compiled, state, part, activity, start);
  while (move >= 0) {
    const finish = state.finish[move];
    const until = Math.min(end, finish);
    if (space >= 0 && from < until) out.push(space, from, until);
    space = compiled.activities[move].modes[state.mode[move]].movesTo;
    from = Math.max(start, state.start[move]);
    move = moveAfter(compiled, state, part, activity, finish);
  }
  if (space >= 0 && from < end) out.push(space, from, end);
}

/** Takes the film out of the air. */
export function hideFilm(state: State, film: number): void {
  const spans = state.filmSpans[film];
  for (let i = 0; i < spans.length; i += 3)
    removeAir(state.open[spans[i]], spans[i + 1], spans[i + 2]);
  spans.length = 0;
}

/** Shows in the air where a film of placed work now is and until when, instead of where it was. */
export function showFilm(compiled: Compiled, state: State, film: number): void {
  hideFilm(state, film);
  if (state.placed[compiled.films[film].activity] === 0) return;
  const spans = state.filmSpans[film];
  spansOfFilm(compiled, state, film, filmEnd(compiled, state, film), spans);
  for (let i = 0; i < spans.length; i += 3)
    addAir(state.open[spans[i]], spans[i + 1], spans[i + 2]);
}

/** When the dust ends that a film, placed or tried, meets where it is and will be carried; -1 where none. */
export function filmConflict(
  compiled: Compiled,
  state: State,
  film: number,
  scratch: number[],
): number {
  spansOfFilm(compiled, state, film, filmEnd(compiled, state, film), scratch);
  let first = -1;
  for (let i = 0; i < scratch.length; i += 3) {
    const at = dustMet(compiled, state, scratch[i], scratch[i + 1], scratch[i + 2]);
    if (at >= 0 && (first < 0 || at < first)) first = at;
  }
  return first;
}

/** The first meeting of what is open with dust that comes past a barrier; -1 where there is none. */
export function meetingPast(compiled: Compiled, state: State, barrier: number): number {
  const { gates, gatesOf } = compiled.drift;
  for (const gate of gatesOf[barrier]) {
    const at = meeting(state.gates[gate], state.open[gates[gate].into], state.closed[barrier]);
    if (at >= 0) return at;
  }
  return -1;
}

/** The first meeting of dust and what is open, over all spaces; -1 where there is none. */
export function anyMeeting(compiled: Compiled, state: State): number {
  for (let space = 0; space < state.dust.length; space += 1) {
    const at = meeting(state.dust[space], state.open[space], null);
    if (at >= 0) return at;
  }
  for (let barrier = 0; barrier < state.closed.length; barrier += 1) {
    const at = meetingPast(compiled, state, barrier);
    if (at >= 0) return at;
  }
  return -1;
}

/** Until when the film just laid can wait for its covers: the first dust where it is, or for ever. */
export function keepFilm(compiled: Compiled, state: State, film: number): void {
  const { activity } = compiled.films[film];
  const never = compiled.horizon + 1;
  const finish = state.finish[activity];
  const spans: number[] = [];
  spansOfFilm(compiled, state, film, never, spans);
  let until = never;
  for (let i = 0; i < spans.length; i += 3) {
    const from = Math.max(spans[i + 1], finish);
    const first = firstDust(compiled, state, spans[i], from, spans[i + 2]);
    until = Math.min(until, Math.max(first, finish));
  }
  state.filmTo[film] = until;
}
