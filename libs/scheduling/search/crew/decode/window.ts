import type { Arc } from '../compiled/arc.ts';
import type { Compiled } from '../compiled/compiled.ts';
import { anchorBound, anchorOpenBy, anchorReaching } from '../compiled/inverse.ts';
import { isUncovered } from '../places/films.ts';
import type { State } from '../state/state.ts';
import type { Way } from '../state/work.ts';

/** Bounds on an activity's start and finish from the lags to what is placed. */
export interface Window {
  startFrom: number;
  startTo: number;
  finishFrom: number;
  finishTo: number;
}

/** Whether the arc holds under the branches taken. */
export const holds = (arc: Arc, branches: ArrayLike<number>): boolean =>
  arc.choice < 0 || branches[arc.choice] === arc.branch;

/** The bound an arc sets on the activity at its `to` end. */
const fromAbove = (compiled: Compiled, state: State, arc: Arc): number =>
  anchorBound(
    compiled.problem,
    arc,
    state.mode[arc.from],
    arc.fromFinish ? state.finish[arc.from] : state.start[arc.from],
  );

/** The bound an arc sets on the activity at its `from` end, done in `mode`: latest for an opening, earliest for a closing. */
function fromBelow(compiled: Compiled, state: State, arc: Arc, mode: number): number {
  const at = arc.toFinish ? state.finish[arc.to] : state.start[arc.to];
  return arc.open
    ? anchorOpenBy(compiled.problem, arc, mode, at)
    : anchorReaching(compiled.problem, arc, mode, at);
}

/** Narrows `window` by every lag between `a`, done in `mode`, and placed activities. */
export function narrow(
  compiled: Compiled,
  state: State,
  branches: ArrayLike<number>,
  a: number,
  mode: number,
  window: Window,
): void {
  const { incoming, outgoing } = compiled.activities[a];
  for (const arc of incoming) {
    if (state.placed[arc.from] === 0 || !holds(arc, branches)) continue;
    const bound = fromAbove(compiled, state, arc);
    if (arc.open) {
      if (arc.toFinish) window.finishFrom = Math.max(window.finishFrom, bound);
      else window.startFrom = Math.max(window.startFrom, bound);
    } else if (arc.toFinish) window.finishTo = Math.min(window.finishTo, bound);
    else window.startTo = Math.min(window.startTo, bound);
  }
  for (const arc of outgoing) {
    if (state.placed[arc.to] === 0 || !holds(arc, branches)) continue;
    const bound = fromBelow(compiled, state, arc, mode);
    if (!arc.open) {
      if (arc.fromFinish) window.finishFrom = Math.max(window.finishFrom, bound);
      else window.startFrom = Math.max(window.startFrom, bound);
    } else if (arc.fromFinish) window.finishTo = Math.min(window.finishTo, bound);
    else window.startTo = Math.min(window.startTo, bound);
  }
}

/** Narrows `window` by holds that `a` ends and films that it covers: they were kept for so long only. */
export function narrowByKept(compiled: Compiled, state: State, a: number, window: Window): void {
  const { endsHolds, covers } = compiled.activities[a];
  for (const h of endsHolds) {
    const { activity, ends } = compiled.problem.holds[h];
    if (state.placed[activity] === 0) continue;
    for (const end of ends) {
      if (end.kind !== 'activity' || end.activity !== a) continue;
      if (end.anchor === 'finish') window.finishTo = Math.min(window.finishTo, state.heldOpen[h]);
      else window.startTo = Math.min(window.startTo, state.heldOpen[h]);
    }
  }
  for (const film of covers)
    if (state.placed[compiled.films[film].activity] === 1 && isUncovered(compiled, state, film))
      window.startTo = Math.min(window.startTo, state.filmTo[film]);
}

/**
 * The least anchor that the activity at the other end needs for `a` to be done in a way, or
 * -Infinity where the arc is content. Only arcs that bound `a` from above can be discontent.
 */
export function anchorNeeded(
  compiled: Compiled,
  state: State,
  arc: Arc,
  a: number,
  { mode, start, finish }: Way,
): number {
  if (arc.to === a) {
    if (arc.open) return -Infinity;
    const at = arc.toFinish ? finish : start;
    return fromAbove(compiled, state, arc) >= at
      ? -Infinity
      : anchorReaching(compiled.problem, arc, state.mode[arc.from], at);
  }
  if (!arc.open) return -Infinity;
  const needed = anchorBound(compiled.problem, arc, mode, arc.fromFinish ? finish : start);
  return (arc.toFinish ? state.finish[arc.to] : state.start[arc.to]) >= needed ? -Infinity : needed;
}
