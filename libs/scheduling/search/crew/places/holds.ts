import type { Compiled } from '../compiled/compiled.ts';
import { lastOpening } from '../compiled/inverse.ts';
import { shortageEnd, shortageStart, take } from '../state/profile.ts';
import { isPresent, type State } from '../state/state.ts';
import type { Work } from '../state/work.ts';

/** The latest of the holder's finish and of the ends that are known so far. */
function knownEnd(compiled: Compiled, state: State, h: number, mode: number, f: number): number {
  const { problem } = compiled;
  let end = f;
  for (const one of problem.holds[h].ends) {
    if (one.kind === 'lag') end = Math.max(end, lastOpening(problem, [one.fns], mode, f));
    else if (state.placed[one.activity] === 1) end = Math.max(end, state[one.anchor][one.activity]);
  }
  return end;
}

/** Whether an activity that may end the hold, other than `but`, is still to be placed. */
function isOpen(compiled: Compiled, state: State, h: number, but = -1): boolean {
  const { ends, activity } = compiled.problem.holds[h];
  return ends.some(
    (end) =>
      end.kind === 'activity' &&
      end.activity !== but &&
      end.activity !== activity &&
      state.placed[end.activity] === 0 &&
      isPresent(compiled, state, end.activity),
  );
}

/** Takes or gives back so that the hold lasts until `to`. */
function lasts(compiled: Compiled, state: State, h: number, to: number): void {
  const { resource, amount } = compiled.problem.holds[h];
  const now = state.heldTo[h];
  if (to > now) take(state.profiles[resource], now, to, amount);
  else take(state.profiles[resource], to, now, -amount);
  state.heldTo[h] = to;
}

/**
 * When work in [s, f) could start, for its holds to last at least as long as is known now; -1
 * where it can. What it demands of the same resource comes on top of the hold.
 */
export function holdConflict(
  compiled: Compiled,
  state: State,
  { activity: { holds }, mode }: Work,
  s: number,
  f: number,
): number {
  const { problem } = compiled;
  for (const h of holds) {
    const { resource } = problem.holds[h];
    const profile = state.profiles[resource];
    let held = 0;
    for (const other of holds)
      if (problem.holds[other].resource === resource) held += problem.holds[other].amount;
    let demanded = 0;
    for (const use of mode.uses) if (use.resource === resource) demanded += use.amount;
    const working = f + mode.cleanDown;
    if (working > s) {
      const at = shortageEnd(profile, s, Math.max(f, working), held + demanded);
      if (at >= 0) return at;
    }
    const end = knownEnd(compiled, state, h, mode.index, f);
    if (end <= s) continue;
    const at = shortageEnd(profile, s, end, held);
    if (at >= 0) return at;
  }
  return -1;
}

/**
 * Begins the holds of work just placed. While ends are still to come, the resource is kept until
 * the first moment at which it would be short: others cannot take it, and the ends have until then.
 */
export function beginHolds(compiled: Compiled, state: State, a: number): void {
  for (const h of compiled.activities[a].holds) {
    const { resource, amount } = compiled.problem.holds[h];
    const f = state.finish[a];
    const known = knownEnd(compiled, state, h, state.mode[a], f);
    let end = known;
    if (isOpen(compiled, state, h)) {
      const short = shortageStart(state.profiles[resource], known, amount);
      end = Math.max(known, Math.min(compiled.horizon + 1, short));
    }
    state.heldTo[h] = state.start[a];
    state.heldOpen[h] = end;
    lasts(compiled, state, h, end);
  }
}

export function endHolds(compiled: Compiled, state: State, a: number): void {
  for (let i = compiled.activities[a].holds.length - 1; i >= 0; i -= 1)
    lasts(compiled, state, compiled.activities[a].holds[i], state.start[a]);
}

/** Cuts the holds that work just placed was the last to end; `undo` keeps them again. */
export function closeHolds(compiled: Compiled, state: State, a: number, undo: boolean): void {
  for (const h of compiled.activities[a].endsHolds) {
    const { activity } = compiled.problem.holds[h];
    if (state.placed[activity] === 0) continue;
    if (undo) lasts(compiled, state, h, state.heldOpen[h]);
    else if (!isOpen(compiled, state, h))
      lasts(
        compiled,
        state,
        h,
        knownEnd(compiled, state, h, state.mode[activity], state.finish[activity]),
      );
  }
}

/**
 * While `a` is looked at: a hold that its start is the last to end leaves off at what is known
 * without it, since `a` may take the resource over. Undone by `closeHolds` with `undo`.
 */
export function lendHolds(compiled: Compiled, state: State, a: number): void {
  for (const h of compiled.activities[a].endsHolds) {
    const { activity, ends } = compiled.problem.holds[h];
    if (state.placed[activity] === 0 || isOpen(compiled, state, h, a)) continue;
    const byFinish = ends.some(
      (end) => end.kind === 'activity' && end.activity === a && end.anchor === 'finish',
    );
    if (byFinish) continue;
    const { mode, finish } = state;
    lasts(compiled, state, h, knownEnd(compiled, state, h, mode[activity], finish[activity]));
  }
}
