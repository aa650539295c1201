import type { Compiled } from '../compiled/compiled.ts';
import { anyMeeting, filmConflict, isUncovered, rebuildAir } from './dust.ts';
import { holdConflict } from './holds.ts';
import { actConflict, partConflict } from './parts.ts';
import { tried } from '../state/place.ts';
import type { State } from '../state/state.ts';
import type { Work } from '../state/work.ts';

/**
 * When work in [s, f) that lays films, carries them or works a barrier could start after the first
 * meeting of dust and film that it would bring about; -1 where it brings none.
 */
function airConflict(compiled: Compiled, state: State, work: Work, s: number, f: number): number {
  const { activity, mode } = work;
  const { films, parts } = activity;
  const acts = mode.barrier >= 0;
  const at = tried(state, work, s, f, () => {
    // What is still to be covered has to be safe until the finish at least.
    for (const film of films) if (isUncovered(compiled, state, film)) state.filmTo[film] = f;
    if (acts) {
      // Only an act on a barrier changes where other dust goes.
      rebuildAir(compiled, state);
      return anyMeeting(state);
    }
    let first = -1;
    compiled.films.forEach(({ activity: owner, part }, film) => {
      const own = owner === activity.index;
      const carried = mode.movesTo >= 0 && part >= 0 && parts.includes(part);
      if (first < 0 && (own || (carried && state.placed[owner] === 1)))
        first = filmConflict(compiled, state, film);
    });
    return first;
  });
  if (acts) rebuildAir(compiled, state);
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
    mode.barrier >= 0 || activity.films.length > 0 || (mode.movesTo >= 0 && activity.carries);
  return compiled.wideAir && stirs ? airConflict(compiled, state, work, s, f) : -1;
}
