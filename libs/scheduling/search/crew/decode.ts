import type { Arc } from './arc.ts';
import type { Compiled } from './compiled.ts';
import { earliestFit, type Fit } from './fit.ts';
import type { Genome } from './genome.ts';
import { copyState, emptyState, place, placeFrozen, unplace, type State } from './state.ts';
import { anchorNeeded, holds, narrow, type Window } from './window.ts';

/** Everything that turns genomes into plans, with the plan made last in `state`. */
export interface Decoder {
  readonly compiled: Compiled;
  readonly state: State;
  readonly present: Uint8Array;
  /** The activity that could not be placed when a decode failed, else -1. */
  blame: number;
  /** Builds the plan of a genome; false where it gives none. */
  decode(genome: Genome): boolean;
}

/** Bounds on start and finish that hold in every plan in which the activity is present. */
export interface Windows {
  readonly startFrom: ArrayLike<number>;
  readonly startTo: ArrayLike<number>;
  readonly finishFrom: ArrayLike<number>;
  readonly finishTo: ArrayLike<number>;
}

interface Choice {
  mode: number;
  crew: number;
  start: number;
  finish: number;
}

/** Times that a decode may take work back, for each activity; past it the genome is given up. */
const RETRIES = 4;

/**
 * Serial generation: places activities one by one, each at the earliest finish that its
 * crews, resources, air and lags to placed work allow. Where a window has closed before the
 * activity can go ahead, the opener is raised to the least anchor that would do, everything
 * placed after it is taken back, and generation goes on from there (unscheduling after
 * Franck, Neumann & Schwindt, OR Spektrum 23, 2001, with the last-in-first-out rule).
 */
export function decoder(compiled: Compiled, windows: Windows): Decoder {
  const { problem, activities, order, horizon } = compiled;
  const n = activities.length;
  const base = emptyState(compiled);
  placeFrozen(compiled, base);
  const state = emptyState(compiled);
  const present = new Uint8Array(n);
  const pending = new Int32Array(n);
  const boost = new Int32Array(n);
  const raisedStart = new Float64Array(n);
  const raisedFinish = new Float64Array(n);
  const eligible = new Int32Array(n);
  const set = order.topological.filter((a) => activities[a].setStart >= 0);
  const window: Window = { startFrom: 0, startTo: 0, finishFrom: 0, finishTo: 0 };
  const fit: Fit = { start: 0, finish: 0 };
  const best: Choice = { mode: -1, crew: -1, start: 0, finish: 0 };
  /** The way that misses the window by least, for raising its opener. */
  const near: Choice = { mode: -1, crew: -1, start: 0, finish: 0 };
  let eligibleCount = 0;
  let missed = Infinity;

  const choose = (choice: Choice, mode: number, crew: number): void => {
    choice.mode = mode;
    choice.crew = crew;
    choice.start = fit.start;
    choice.finish = fit.finish;
  };

  /** Tries one crew; crews come with the least missed people first, so later ones must be better by `slack`. */
  const tryCrew = (a: number, m: number, c: number, slack: number): void => {
    const activity = activities[a];
    const mode = activity.modes[m];
    const limit = best.mode < 0 ? horizon + 1 : best.finish - slack;
    const option = mode.crews === null ? null : mode.crews[c];
    const { startFrom, finishFrom, startTo, finishTo } = window;
    let fits = earliestFit(
      compiled,
      state,
      activity,
      mode,
      option,
      startFrom,
      finishFrom,
      limit,
      fit,
    );
    if (
      mode.relieved &&
      !mode.pauses &&
      option !== null &&
      best.mode < 0 &&
      !(fits && fit.start <= startTo && fit.finish <= finishTo)
    )
      // Nobody should begin in a break that is relieved, but where the window asks for it, it is allowed.
      fits = earliestFit(
        compiled,
        state,
        activity,
        mode,
        option,
        startFrom,
        finishFrom,
        limit,
        fit,
        true,
      );
    if (!fits) return;
    const late = Math.max(0, fit.start - startTo) + Math.max(0, fit.finish - finishTo);
    if (late === 0) choose(best, m, c);
    else if (late < missed) {
      missed = late;
      choose(near, m, c);
    }
  };

  const tryMode = (a: number, m: number, genome: Genome): void => {
    const { crews } = activities[a].modes[m];
    if (crews === null) {
      tryCrew(a, m, -1, 0);
      return;
    }
    const wished = genome.crew[a];
    if (wished >= 0 && genome.mode[a] === m && wished < crews.length) {
      tryCrew(a, m, wished, 0);
      if (best.mode >= 0) return;
    }
    for (let c = 0; c < crews.length; c += 1) tryCrew(a, m, c, genome.slack);
  };

  /** Finds the best way to do `a` now: into `best`, or into `near` where its window is missed. */
  const search = (a: number, genome: Genome): void => {
    const activity = activities[a];
    window.startFrom = Math.max(
      windows.startFrom[a],
      raisedStart[a],
      Math.min(genome.wait[a], windows.startTo[a]),
    );
    window.finishFrom = Math.max(windows.finishFrom[a], raisedFinish[a]);
    window.startTo = windows.startTo[a];
    window.finishTo = windows.finishTo[a];
    narrow(compiled, state, genome.branch, a, window);
    best.mode = -1;
    near.mode = -1;
    missed = Infinity;
    const wished = genome.mode[a];
    if (wished >= 0) tryMode(a, wished, genome);
    if (best.mode < 0)
      for (let m = 0; m < activity.modes.length; m += 1) if (m !== wished) tryMode(a, m, genome);
  };

  const put = (a: number): void => {
    place(compiled, state, a, best.mode, best.crew, best.start, best.finish);
    for (const b of order.after[a]) pending[b] -= 1;
    for (const b of order.pulled[a]) boost[b] += 1;
  };

  const takeBack = (): void => {
    const a = unplace(compiled, state);
    for (const b of order.after[a]) pending[b] += 1;
    for (const b of order.pulled[a]) boost[b] -= 1;
  };

  const gather = (): void => {
    eligibleCount = 0;
    for (let a = 0; a < n; a += 1)
      if (present[a] === 1 && state.placed[a] === 0 && pending[a] === 0)
        eligible[eligibleCount++] = a;
  };

  const movable = (a: number): boolean =>
    activities[a].frozen === null && activities[a].setStart < 0;

  /** Raises the openers of what `near` missed; the stack height to fall back to, -1 if hopeless. */
  const raise = (
    a: number,
    arcs: readonly Arc[],
    branches: ArrayLike<number>,
    height: number,
  ): number => {
    let to = height;
    for (const arc of arcs) {
      const other = arc.to === a ? arc.from : arc.to;
      if (state.placed[other] === 0 || !holds(arc, branches)) continue;
      const needed = anchorNeeded(compiled, state, arc, a, near.start, near.finish);
      if (needed === -Infinity) continue;
      if (needed > horizon || !movable(other)) return -1;
      const finish = arc.to === a ? arc.fromFinish : arc.toFinish;
      if (finish) raisedFinish[other] = Math.max(raisedFinish[other], needed);
      else raisedStart[other] = Math.max(raisedStart[other], needed);
      to = Math.min(to, state.depth[other]);
    }
    return to;
  };

  /** Makes room for `a` by taking work back; false where that cannot help. */
  const reopen = (a: number, genome: Genome): boolean => {
    if (near.mode < 0) return false;
    let to = raise(a, activities[a].incoming, genome.branch, state.height);
    if (to >= 0) to = raise(a, activities[a].outgoing, genome.branch, to);
    if (to < 0 || to === state.height) return false;
    while (state.height > to) takeBack();
    return true;
  };

  const pick = (genome: Genome): number => {
    let at = 0;
    for (let i = 1; i < eligibleCount; i += 1) {
      const a = eligible[i];
      const b = eligible[at];
      const pulled = Number(boost[a] > 0) - Number(boost[b] > 0);
      if (
        pulled > 0 ||
        (pulled === 0 &&
          (genome.keys[a] < genome.keys[b] || (genome.keys[a] === genome.keys[b] && a < b)))
      )
        at = i;
    }
    const a = eligible[at];
    eligible[at] = eligible[--eligibleCount];
    return a;
  };

  const begin = (genome: Genome): void => {
    copyState(base, state);
    state.branch.set(genome.branch);
    present.fill(1);
    problem.choices.forEach((choice, c) => {
      choice.branches.forEach((branch, b) => {
        for (const a of branch.activities) present[a] = genome.branch[c] === b ? 1 : 0;
      });
    });
    pending.fill(0);
    boost.fill(0);
    raisedStart.fill(0);
    raisedFinish.fill(0);
    for (let a = 0; a < n; a += 1)
      for (const b of order.before[a])
        if (present[b] === 1 && state.placed[b] === 0) pending[a] += 1;
  };

  const self: Decoder = {
    compiled,
    state,
    present,
    blame: -1,
    decode(genome) {
      begin(genome);
      for (const a of set) {
        if (present[a] === 0) continue;
        search(a, genome);
        if (best.mode < 0) {
          self.blame = a;
          return false;
        }
        put(a);
      }
      gather();
      let retries = RETRIES * n + 50;
      while (eligibleCount > 0) {
        const a = pick(genome);
        search(a, genome);
        if (best.mode >= 0) {
          put(a);
          for (const b of order.after[a])
            if (pending[b] === 0 && present[b] === 1 && state.placed[b] === 0)
              eligible[eligibleCount++] = b;
          continue;
        }
        retries -= 1;
        if (retries < 0 || !reopen(a, genome)) {
          self.blame = a;
          return false;
        }
        gather();
      }
      return true;
    },
  };
  return self;
}
