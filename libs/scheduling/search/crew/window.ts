import type { Arc } from './arc.ts';
import type { Compiled } from './compiled.ts';
import { anchorBound, anchorOpenBy, anchorReaching } from './inverse.ts';
import type { State } from './state.ts';

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
    arc.fromFinish ? state.finish[arc.from] : state.start[arc.from],
  );

/** The bound an arc sets on the activity at its `from` end: latest for an opening, earliest for a closing. */
function fromBelow(compiled: Compiled, state: State, arc: Arc): number {
  const at = arc.toFinish ? state.finish[arc.to] : state.start[arc.to];
  return arc.open
    ? anchorOpenBy(compiled.problem, arc, at)
    : anchorReaching(compiled.problem, arc, at);
}

/** Narrows `window` by every lag between `a` and placed activities. */
export function narrow(
  compiled: Compiled,
  state: State,
  branches: ArrayLike<number>,
  a: number,
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
    const bound = fromBelow(compiled, state, arc);
    if (!arc.open) {
      if (arc.fromFinish) window.finishFrom = Math.max(window.finishFrom, bound);
      else window.startFrom = Math.max(window.startFrom, bound);
    } else if (arc.fromFinish) window.finishTo = Math.min(window.finishTo, bound);
    else window.startTo = Math.min(window.startTo, bound);
  }
}

/**
 * The least anchor that the activity at the other end needs for `a` to be at [s, f), or
 * -Infinity where the arc is content. Only arcs that bound `a` from above can be discontent.
 */
export function anchorNeeded(
  compiled: Compiled,
  state: State,
  arc: Arc,
  a: number,
  s: number,
  f: number,
): number {
  if (arc.to === a) {
    if (arc.open) return -Infinity;
    const at = arc.toFinish ? f : s;
    return fromAbove(compiled, state, arc) >= at
      ? -Infinity
      : anchorReaching(compiled.problem, arc, at);
  }
  if (!arc.open) return -Infinity;
  const needed = anchorBound(compiled.problem, arc, arc.fromFinish ? f : s);
  return (arc.toFinish ? state.finish[arc.to] : state.start[arc.to]) >= needed ? -Infinity : needed;
}
