import type { Compiled } from '../compiled/compiled.ts';
import { anyMeeting } from '../places/films.ts';
import { isKept } from '../compiled/inverse.ts';
import type { State } from './state.ts';

/** Whether any two of some placed activities, no minutes aside, overlap. */
function overlapping(state: State, list: readonly number[]): boolean {
  return list.some((a, i) =>
    list.some(
      (b, k) =>
        k > i &&
        state.start[a] < state.finish[b] &&
        state.start[b] < state.finish[a] &&
        state.start[a] < state.finish[a] &&
        state.start[b] < state.finish[b],
    ),
  );
}

/** Whether the lags among what has happened are kept: those of no branch, and of `taken` branches. */
function lagsStand(
  { activities, arcs, problem }: Compiled,
  taken: ArrayLike<number> | null,
): boolean {
  return arcs.every((arc) => {
    const from = activities[arc.from].frozen;
    const to = activities[arc.to].frozen;
    if (!from || !to) return true;
    if (arc.choice >= 0 && taken?.[arc.choice] !== arc.branch) return true;
    return isKept(problem, arc, from.mode, from, to);
  });
}

/**
 * Whether what has happened can be part of a right plan at all, whatever the branches: its lags,
 * people and the horizon.
 */
export function historyStands(compiled: Compiled, frozen: State): boolean {
  const { activities, horizon } = compiled;
  if (!lagsStand(compiled, null)) return false;
  const twice = frozen.busy.some(({ count, starts, ends }) => {
    for (let i = 1; i < count; i += 1) if (starts[i] < ends[i - 1]) return true;
    return false;
  });
  return !twice && activities.every((one) => one.frozen === null || one.frozen.finish <= horizon);
}

/** The same of what depends on the branches: their lags, resources with holds, parts, barriers and air. */
export function beginningStands(compiled: Compiled, state: State): boolean {
  if (!lagsStand(compiled, state.branch)) return false;
  for (const { count, left } of state.profiles)
    for (let i = 0; i < count; i += 1) if (left[i] < 0) return false;
  if (state.onPart.some((list) => overlapping(state, list))) return false;
  if (state.acts.some((list) => overlapping(state, list))) return false;
  return anyMeeting(compiled, state) < 0;
}
