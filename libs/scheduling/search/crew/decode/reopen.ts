import type { Arc } from '../compiled/arc.ts';
import type { Raised } from './choose.ts';
import type { Compiled } from '../compiled/compiled.ts';
import { isUncovered } from '../places/films.ts';
import { crewOf, type State } from '../state/state.ts';
import type { Way } from '../state/work.ts';
import { anchorNeeded, holds, type Window } from './window.ts';

/** Whether two activities, done so, ask for a person or a resource in common. */
function compete(compiled: Compiled, state: State, k: number, a: number, near: Way): boolean {
  const { modes } = compiled.activities[a];
  const mode = modes[near.mode];
  const other = compiled.activities[k].modes[state.mode[k]];
  if (mode.uses.some((one) => other.uses.some(({ resource }) => resource === one.resource)))
    return true;
  const people = crewOf(compiled, state, k)?.builders ?? [];
  const crew = mode.crews === null ? [] : mode.crews[near.crew].builders;
  return crew.some((builder) => people.includes(builder));
}

/** Movable work in the way of `a` between its window's beginning and where it would fit. */
export function rivalsOf(
  compiled: Compiled,
  state: State,
  a: number,
  near: Way,
  window: Window,
): number[] {
  const found: number[] = [];
  for (let i = 0; i < state.height; i += 1) {
    const k = state.stack[i];
    if (state.start[k] >= near.finish || state.finish[k] <= window.startFrom) continue;
    if (isMovable(compiled, k) && compete(compiled, state, k, a, near)) found.push(k);
  }
  return found;
}

/** Whether neither history nor the foreman says when the activity is. */
const isMovable = ({ activities }: Compiled, a: number): boolean => {
  const { frozen, setStart, setFinish } = activities[a];
  return frozen === null && setStart < 0 && setFinish < 0;
};

/**
 * Raises whatever opened what `a`, done as in `near`, comes too late for: windows of lags, holds
 * that it ends and films that it covers. The height of the stack to fall back to, so that all of
 * it is placed anew; -1 where that is hopeless or nothing was raised.
 */
export function reopen(
  compiled: Compiled,
  state: State,
  branches: ArrayLike<number>,
  raised: Raised,
  a: number,
  near: Way,
): number {
  const { activities, horizon, problem } = compiled;
  let height = state.height;

  /** False where the other one cannot be raised so far. */
  const raise = (other: number, to: Float64Array, needed: number): boolean => {
    if (needed > horizon || !isMovable(compiled, other)) return false;
    to[other] = Math.max(to[other], needed);
    height = Math.min(height, state.depth[other]);
    return true;
  };

  const byArc = (arc: Arc): boolean => {
    const other = arc.to === a ? arc.from : arc.to;
    if (state.placed[other] === 0 || !holds(arc, branches)) return true;
    const needed = anchorNeeded(compiled, state, arc, a, near);
    if (needed === -Infinity) return true;
    const finish = arc.to === a ? arc.fromFinish : arc.toFinish;
    return raise(other, finish ? raised.finish : raised.start, needed);
  };

  const byHold = (h: number): boolean => {
    const { activity, ends } = problem.holds[h];
    const until = state.heldOpen[h];
    const late = ends.some(
      (end) => end.kind === 'activity' && end.activity === a && near[end.anchor] > until,
    );
    if (state.placed[activity] === 0 || !late) return true;
    return raise(activity, raised.start, Math.max(until, state.start[activity] + 1));
  };

  const byFilm = (film: number): boolean => {
    const { activity } = compiled.films[film];
    const until = state.filmTo[film];
    if (state.placed[activity] === 0 || near.start <= until) return true;
    if (!isUncovered(compiled, state, film)) return true;
    return raise(activity, raised.start, Math.max(until, state.start[activity] + 1));
  };

  const { incoming, outgoing, endsHolds, covers } = activities[a];
  const possible =
    incoming.every(byArc) &&
    outgoing.every(byArc) &&
    endsHolds.every(byHold) &&
    covers.every(byFilm);
  return !possible || height === state.height ? -1 : height;
}
