import type { Compiled } from '../compiled/compiled.ts';
import type { CompiledMode } from '../compiled/mode.ts';
import type { State } from '../state/state.ts';
import type { Work } from '../state/work.ts';

const modeOf = (compiled: Compiled, state: State, a: number): CompiledMode =>
  compiled.activities[a].modes[state.mode[a]];

/** The end of the first of some placed activities that overlaps [s, f), -1 where none does; no minutes occupy nothing. */
function overlap(state: State, list: readonly number[], s: number, f: number): number {
  for (const k of list)
    if (state.start[k] < f && state.finish[k] > s && state.start[k] < state.finish[k])
      return state.finish[k];
  return -1;
}

/** The last move of the part that is finished at `t`, -1 where it has not been moved. */
function lastMove(compiled: Compiled, state: State, part: number, t: number): number {
  let last = -1;
  for (const k of state.onPart[part]) {
    if (state.finish[k] > t || modeOf(compiled, state, k).movesTo < 0) continue;
    if (last < 0 || state.finish[k] > state.finish[last]) last = k;
  }
  return last;
}

const spaceAfter = (compiled: Compiled, state: State, part: number, move: number): number =>
  move < 0 ? compiled.problem.parts[part].space : modeOf(compiled, state, move).movesTo;

/** The first finish after `t` of a move of the part to `space`, Infinity where none is placed. */
function nextArrival(
  compiled: Compiled,
  state: State,
  part: number,
  space: number,
  t: number,
): number {
  let first = Infinity;
  for (const k of state.onPart[part])
    if (state.finish[k] > t && modeOf(compiled, state, k).movesTo === space)
      first = Math.min(first, state.finish[k]);
  return first;
}

/** The finish of placed work that a move in [s, f) would leave without its part; -1 where none. */
function stranded(
  compiled: Compiled,
  state: State,
  part: number,
  mode: CompiledMode,
  f: number,
): number {
  let next = Infinity;
  for (const k of state.onPart[part])
    if (state.start[k] >= f && modeOf(compiled, state, k).movesTo >= 0)
      next = Math.min(next, state.finish[k]);
  for (const k of state.onPart[part]) {
    const { space } = modeOf(compiled, state, k);
    if (space < 0 || space === mode.movesTo || compiled.activities[k].frozen !== null) continue;
    if (state.start[k] >= f && state.start[k] < next) return Math.max(f, state.finish[k]);
  }
  return -1;
}

/**
 * When work in [s, f) could next have its parts: free, where the mode's space is, and if it moves
 * them, with none of what is placed later left without. -1 where it has them; Infinity where no
 * placed move brings them.
 */
export function partConflict(
  compiled: Compiled,
  state: State,
  { activity, mode }: Work,
  s: number,
  f: number,
): number {
  for (const part of activity.parts) {
    if (f > s) {
      const at = overlap(state, state.onPart[part], s, f);
      if (at >= 0) return at;
    }
    if (mode.space >= 0) {
      const here = spaceAfter(compiled, state, part, lastMove(compiled, state, part, s));
      if (here !== mode.space) return nextArrival(compiled, state, part, mode.space, s);
    }
    if (mode.movesTo >= 0) {
      const at = stranded(compiled, state, part, mode, f);
      if (at >= 0) return at;
    }
  }
  return -1;
}

/** When the barrier that work in [s, f) acts on is free again; -1 where it is. */
export const actConflict = (state: State, mode: CompiledMode, s: number, f: number): number =>
  mode.barrier < 0 ? -1 : overlap(state, state.acts[mode.barrier], s, f);

/**
 * Placed work that may keep `a` from its parts: what it would leave without them by moving them,
 * and moves that have taken them from where it needs them. Done after `a`, it would not.
 */
export function inTheWay(compiled: Compiled, state: State, a: number): number[] {
  const { parts, modes } = compiled.activities[a];
  const found = new Set<number>();
  for (const part of parts)
    for (const k of state.onPart[part]) {
      // What the foreman has set stays when it is, but may have its part brought back until then.
      if (compiled.activities[k].frozen !== null) continue;
      const { space, movesTo } = modeOf(compiled, state, k);
      const strands = modes.some((m) => m.movesTo >= 0 && space >= 0 && space !== m.movesTo);
      const takes = movesTo >= 0 && modes.some((m) => m.space >= 0 && m.space !== movesTo);
      if (strands || takes) found.add(k);
    }
  return [...found];
}
