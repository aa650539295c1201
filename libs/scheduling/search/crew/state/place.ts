import { keepBusy } from './busy.ts';
import { occupy, release, use } from './booking.ts';
import type { Compiled, CompiledActivity } from '../compiled/compiled.ts';
import { breathe, closeBarrier, unbreathe } from '../places/dust.ts';
import { hideFilm, isUncovered, keepFilm, showFilm } from '../places/films.ts';
import { beginHolds, closeHolds, endHolds } from '../places/holds.ts';
import type { CompiledMode } from '../compiled/mode.ts';
import { crewOf, type State } from './state.ts';
import type { Way, Work } from './work.ts';

function enter(state: State, activity: CompiledActivity, mode: CompiledMode): void {
  for (const part of activity.parts) state.onPart[part].push(activity.index);
  if (mode.barrier >= 0) state.acts[mode.barrier].push(activity.index);
}

function leave(state: State, activity: CompiledActivity, mode: CompiledMode): void {
  for (const part of activity.parts) state.onPart[part].pop();
  if (mode.barrier >= 0) state.acts[mode.barrier].pop();
}

/** All that placed work does to parts, barriers, holds and films. */
function entangle(compiled: Compiled, state: State, a: number): void {
  const activity = compiled.activities[a];
  const mode = activity.modes[state.mode[a]];
  if (activity.tangled) enter(state, activity, mode);
  if (activity.holds.length > 0) beginHolds(compiled, state, a);
  if (activity.endsHolds.length > 0) closeHolds(compiled, state, a, false);
  if (!activity.airy) return;
  if (mode.barrier >= 0) closeBarrier(compiled, state, mode.barrier);
  for (const film of activity.films) {
    if (isUncovered(compiled, state, film)) keepFilm(compiled, state, film);
    showFilm(compiled, state, film);
  }
  for (const film of activity.covers) showFilm(compiled, state, film);
  if (mode.movesTo >= 0) for (const film of activity.carried) showFilm(compiled, state, film);
}

function disentangle(compiled: Compiled, state: State, a: number): void {
  const activity = compiled.activities[a];
  const mode = activity.modes[state.mode[a]];
  if (activity.endsHolds.length > 0) closeHolds(compiled, state, a, true);
  if (activity.holds.length > 0) endHolds(compiled, state, a);
  if (activity.tangled) leave(state, activity, mode);
  if (!activity.airy) return;
  if (mode.barrier >= 0) closeBarrier(compiled, state, mode.barrier);
  for (const film of activity.films) hideFilm(state, film);
  for (const film of activity.covers) showFilm(compiled, state, film);
  if (mode.movesTo >= 0) for (const film of activity.carried) showFilm(compiled, state, film);
}

const isEntangled = ({ tangled, unlocks, airy }: CompiledActivity): boolean =>
  tangled || unlocks || airy;

/** What `look` finds as if the work were placed in [s, f), its people and resources aside. */
export function tried(
  state: State,
  { activity, mode, crew }: Work,
  s: number,
  f: number,
  look: () => number,
): number {
  const a = activity.index;
  const kept = [state.start[a], state.finish[a], state.mode[a], state.crew[a]] as const;
  state.placed[a] = 1;
  state.start[a] = s;
  state.finish[a] = f;
  state.mode[a] = mode.index;
  state.crew[a] = crew;
  enter(state, activity, mode);
  const result = look();
  leave(state, activity, mode);
  state.placed[a] = 0;
  [state.start[a], state.finish[a], state.mode[a], state.crew[a]] = kept;
  return result;
}

function push(state: State, a: number, mode: number, s: number, f: number): void {
  state.placed[a] = 1;
  state.start[a] = s;
  state.finish[a] = f;
  state.mode[a] = mode;
  state.stack[state.height] = a;
  state.depth[a] = state.height;
  state.height += 1;
}

/** Places `a` as `way` says; `slot`: an index into the mode's list, -1 where it needs none. */
export function place(compiled: Compiled, state: State, a: number, way: Way, slot: number): void {
  const { mode: m, start: s, finish: f } = way;
  push(state, a, m, s, f);
  state.crew[a] = way.crew;
  state.slot[a] = slot;
  const activity = compiled.activities[a];
  const mode = activity.modes[m];
  const option = crewOf(compiled, state, a);
  const e = f + mode.cleanDown;
  if (e > s) {
    if (option !== null) occupy(state, a, mode, option, s, e, compiled.ever);
    use(state, mode, mode.pauses ? (option?.table ?? mode.table).work : null, s, e, 1);
  }
  if (activity.airy) breathe(compiled, state, a, mode);
  if (isEntangled(activity)) entangle(compiled, state, a);
}

/** Takes back the activity placed last and returns it. */
export function unplace(compiled: Compiled, state: State): number {
  state.height -= 1;
  const a = state.stack[state.height];
  const activity = compiled.activities[a];
  const mode = activity.modes[state.mode[a]];
  const option = crewOf(compiled, state, a);
  const s = state.start[a];
  const e = state.finish[a] + mode.cleanDown;
  if (e > s) {
    if (option !== null) release(state, a, option, s, e);
    use(state, mode, mode.pauses ? (option?.table ?? mode.table).work : null, s, e, -1);
  }
  if (activity.airy) unbreathe(compiled, state, a, mode);
  state.placed[a] = 0;
  if (isEntangled(activity)) disentangle(compiled, state, a);
  return a;
}

/**
 * Places frozen work: in one piece, whatever its mode, with the people who did it. What it does
 * to parts, holds and films depends on the branches: see `beginFrozen`.
 */
export function placeFrozen(compiled: Compiled, state: State): void {
  compiled.activities.forEach((activity, a) => {
    const { frozen } = activity;
    if (!frozen) return;
    const { mode: m, start: s, finish: f } = frozen;
    push(state, a, m, s, f);
    const mode = activity.modes[m];
    if (f > s) {
      for (const b of frozen.builders)
        if (!compiled.problem.builders[b].unlimited) keepBusy(state.busy[b], s, f);
      use(state, mode, null, s, f, 1);
    }
    breathe(compiled, state, a, mode);
  });
}

/** Takes up parts, barriers, holds and air of frozen work, once the branches are known. */
export function beginFrozen(compiled: Compiled, state: State): void {
  for (let i = 0; i < state.height; i += 1) {
    const a = state.stack[i];
    const activity = compiled.activities[a];
    if (activity.tangled) enter(state, activity, activity.modes[state.mode[a]]);
  }
  for (let i = 0; i < state.height; i += 1) {
    const a = state.stack[i];
    if (compiled.activities[a].holds.length > 0) beginHolds(compiled, state, a);
  }
  compiled.problem.barriers.forEach((_, barrier) => {
    closeBarrier(compiled, state, barrier);
  });
  compiled.films.forEach(({ activity }, film) => {
    if (state.placed[activity] === 0) return;
    if (isUncovered(compiled, state, film)) keepFilm(compiled, state, film);
    showFilm(compiled, state, film);
  });
}
