import type { Compiled } from '../compiled/compiled.ts';
import { breathe, closeBarrier, unbreathe } from './dust.ts';
import { filmConflict, isUncovered, meetingPast, showFilm } from './films.ts';
import { holdConflict } from './holds.ts';
import { actConflict, partConflict } from './parts.ts';
import { tried } from '../state/place.ts';
import type { State } from '../state/state.ts';
import type { Work } from '../state/work.ts';

/** The first meeting that an act on a barrier, tried, brings about: only that changes where other dust goes. */
function actMeeting(compiled: Compiled, state: State, { activity, mode }: Work): number {
  const { index, covers } = activity;
  closeBarrier(compiled, state, mode.barrier);
  breathe(compiled, state, index, mode);
  for (const film of covers) showFilm(compiled, state, film);
  const first = meetingPast(compiled, state, mode.barrier);
  unbreathe(compiled, state, index, mode);
  return first;
}

/**
 * When work in [s, f) that lays films, carries them or works a barrier could start after the first
 * meeting of dust and film that it would bring about; -1 where it brings none.
 */
function airConflict(compiled: Compiled, state: State, work: Work, s: number, f: number): number {
  const { activity, mode } = work;
  const { films, carried } = activity;
  const at = tried(state, work, s, f, () => {
    // What is still to be covered has to be safe until the finish at least.
    for (const film of films) if (isUncovered(compiled, state, film)) state.filmTo[film] = f;
    if (mode.barrier >= 0) {
      const first = actMeeting(compiled, state, work);
      if (first >= 0) return first;
    }
    const { scratch } = state;
    for (const film of films) {
      const first = filmConflict(compiled, state, film, scratch);
      if (first >= 0) return first;
    }
    if (mode.movesTo < 0) return -1;
    for (const film of carried) {
      if (state.placed[compiled.films[film].activity] === 0) continue;
      const first = filmConflict(compiled, state, film, scratch);
      if (first >= 0) return first;
    }
    return -1;
  });
  if (mode.barrier >= 0) {
    closeBarrier(compiled, state, mode.barrier);
    for (const film of activity.covers) showFilm(compiled, state, film);
  }
  return at < 0 ? -1 : Math.max(at, s + 1);
}

/**
 * When work in [s, f) could next start as far as its parts, barriers, holds and what it does to
 * the air are concerned: -1 where it can, Infinity where nothing placed will let it.
 */
export function tangleConflict(
  compiled: Compiled,
  state: State,
  work: Work,
  s: number,
  f: number,
): number {
  const { activity, mode } = work;
  let at = activity.parts.length > 0 ? partConflict(compiled, state, work, s, f) : -1;
  if (at < 0) at = actConflict(state, mode, s, f);
  if (at < 0 && activity.holds.length > 0) at = holdConflict(compiled, state, work, s, f);
  if (at >= 0) return at;
  const stirs =
    mode.barrier >= 0 ||
    activity.films.length > 0 ||
    (mode.movesTo >= 0 && activity.carried.length > 0);
  return stirs ? airConflict(compiled, state, work, s, f) : -1;
}
