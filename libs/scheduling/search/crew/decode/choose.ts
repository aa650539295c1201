import type { Compiled } from '../compiled/compiled.ts';
import { earliestFit, type Fit } from './fit.ts';
import type { Genome } from './genome.ts';
import { closeHolds, lendHolds } from '../places/holds.ts';
import { freshAir } from '../places/dust.ts';
import type { State } from '../state/state.ts';
import type { Way, Work } from '../state/work.ts';
import { narrow, narrowByKept, type Window } from './window.ts';

/** Bounds on start and finish that hold in every plan in which the activity is present. */
export interface Windows {
  readonly startFrom: ArrayLike<number>;
  readonly startTo: ArrayLike<number>;
  readonly finishFrom: ArrayLike<number>;
  readonly finishTo: ArrayLike<number>;
}

/** The earliest moments that a decode has come to ask for, by activity. */
export interface Raised {
  readonly start: Float64Array;
  readonly finish: Float64Array;
}

export interface Chooser {
  /** The way that finishes first within its window. */
  readonly best: Way;
  /** Where there is no best: the way that misses the window by least. */
  readonly near: Way;
  /** When it may start and finish, as far as lags, holds and films to what is placed say. */
  readonly window: Window;
  /** Looks for the best way to do `a` now; `only`: in this mode, -1 in any. */
  readonly search: (a: number, genome: Genome, only: number) => void;
}

export function chooser(
  compiled: Compiled,
  state: State,
  windows: Windows,
  raised: Raised,
): Chooser {
  const { activities, horizon } = compiled;
  const window: Window = { startFrom: 0, startTo: 0, finishFrom: 0, finishTo: 0 };
  const fit: Fit = { start: 0, finish: 0 };
  const works = activities.map((activity) =>
    activity.modes.map((mode): Work => {
      const { table, minutes } = mode;
      return { activity, mode, crew: -1, option: null, table, minutes };
    }),
  );
  const best: Way = { mode: -1, crew: -1, start: 0, finish: 0 };
  const near: Way = { mode: -1, crew: -1, start: 0, finish: 0 };
  let bestOvertime = false;
  /** The minute that the genome has the activity wait for, -1 where it names none. */
  let told = -1;
  let missed = Infinity;

  const take = (way: Way, { mode, crew }: Work): void => {
    way.mode = mode.index;
    way.crew = crew;
    way.start = fit.start;
    way.finish = fit.finish;
  };

  /**
   * Tries one crew. Crews come with the least missed people first and overtime last, so that
   * later ones must be better by `slack`, and by `thrift` where they are the first with overtime.
   */
  const tryCrew = (a: number, m: number, c: number, slack: number, thrift: number): void => {
    const work = works[a][m];
    const { mode } = work;
    const option = mode.crews === null ? null : mode.crews[c];
    const overtime = option !== null && option.overtime;
    const extra = overtime && !bestOvertime ? slack + thrift : slack;
    const limit = best.mode < 0 ? horizon + 1 : best.finish - extra;
    // However free they were, they could not finish in time.
    if (option !== null && window.startFrom + option.minutes >= limit) return;
    const { startTo, finishTo } = window;
    if (option !== null) {
      work.crew = c;
      work.option = option;
      work.table = option.table;
      work.minutes = option.minutes;
    }
    let found = earliestFit(compiled, state, work, window, limit, fit);
    const inBreaks = mode.relieved && !mode.pauses && option !== null && best.mode < 0;
    const asked = window.startFrom === told && fit.start > told;
    if (inBreaks && (asked || !(found && fit.start <= startTo && fit.finish <= finishTo))) {
      // Nobody should begin in a break that is relieved, but where the window or the genome (to
      // repeat a given plan) asks for it, it is allowed.
      work.table = option.relieved;
      found = earliestFit(compiled, state, work, window, limit, fit);
    }
    if (!found) return;
    const late = Math.max(0, fit.start - startTo) + Math.max(0, fit.finish - finishTo);
    if (late === 0) {
      take(best, work);
      bestOvertime = overtime;
    } else if (late < missed) {
      missed = late;
      take(near, work);
    }
  };

  const tryMode = (a: number, m: number, genome: Genome): void => {
    const { crews } = activities[a].modes[m];
    if (crews === null) {
      tryCrew(a, m, -1, 0, 0);
      return;
    }
    const wished = genome.crew[a];
    if (wished >= 0 && genome.mode[a] === m && wished < crews.length) {
      tryCrew(a, m, wished, 0, 0);
      if (best.mode >= 0) return;
    }
    for (let c = 0; c < crews.length; c += 1) tryCrew(a, m, c, genome.slack, genome.thrift);
  };

  const look = (a: number, m: number, genome: Genome): void => {
    const { setStart, setFinish } = activities[a];
    told = genome.wait[a] > 0 ? genome.wait[a] : -1;
    window.startFrom = Math.max(
      windows.startFrom[a],
      raised.start[a],
      Math.min(genome.wait[a], windows.startTo[a]),
      setStart,
    );
    window.finishFrom = Math.max(windows.finishFrom[a], raised.finish[a], setFinish);
    window.startTo = setStart >= 0 ? setStart : windows.startTo[a];
    window.finishTo = setFinish >= 0 ? setFinish : windows.finishTo[a];
    narrow(compiled, state, genome.branch, a, m, window);
    narrowByKept(compiled, state, a, window);
  };

  const searchWays = (a: number, genome: Genome, only: number): void => {
    const { modes, modal } = activities[a];
    if (!modal) look(a, 0, genome);
    const wished = only >= 0 ? only : genome.mode[a];
    if (wished >= 0) {
      if (modal) look(a, wished, genome);
      tryMode(a, wished, genome);
    }
    if (only >= 0 || best.mode >= 0) return;
    for (let m = 0; m < modes.length; m += 1) {
      if (m === wished) continue;
      if (modal) look(a, m, genome);
      tryMode(a, m, genome);
    }
  };

  return {
    best,
    near,
    window,
    search(a, genome, only) {
      best.mode = -1;
      near.mode = -1;
      bestOvertime = false;
      missed = Infinity;
      const { endsHolds, covers, modes, airy } = activities[a];
      const uncovers = covers.length > 0 && modes.some(({ dusty }) => dusty);
      if (endsHolds.length > 0) lendHolds(compiled, state, a);
      if (uncovers) {
        for (const film of covers) state.covering[film] = 1;
        state.staleAir = true;
      }
      if (airy) freshAir(compiled, state);
      searchWays(a, genome, only);
      if (uncovers) {
        for (const film of covers) state.covering[film] = 0;
        state.staleAir = true;
      }
      if (endsHolds.length > 0) closeHolds(compiled, state, a, true);
    },
  };
}
