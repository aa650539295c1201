import type { Compiled } from '../compiled/compiled.ts';
import { MOST_CREWS, type CrewOption } from '../compiled/crews.ts';
import type { CompiledMode } from '../compiled/mode.ts';
import { endOf, nextInside } from '../compiled/spans.ts';
import { aloneFrom } from './crew-fit.ts';
import type { Fit } from './crew-fit.ts';
import { earliestFit } from './fit.ts';
import type { Genome } from './genome.ts';
import { closeHolds, lendHolds } from '../places/holds.ts';
import { hideFilm, showFilm } from '../places/films.ts';
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
  /**
   * Whether `a`, of which all modes have one window, can be done as `way` says and its window is
   * what it was: as in a course, from `4 * a` on. If so that is `best`.
   */
  readonly isAgain: (a: number, genome: Genome, way: Way, window: Float64Array) => boolean;
}

/** Crews of a mode from which on each builder is first looked at alone. */
const FEW = 4;

/** By builder, from when each alone could begin, and for which look that was found out. */
interface Looked {
  readonly free: Float64Array;
  readonly looked: Int32Array;
}

const nobodyLooked = ({ problem: { builders } }: Compiled): Looked => ({
  free: new Float64Array(builders.length),
  looked: new Int32Array(builders.length),
});

/** When a crew that begins no earlier than `from` is done at the earliest. */
function endAtLeast(
  { pauses }: CompiledMode,
  { table, minutes }: CrewOption,
  from: number,
): number {
  if (!pauses || minutes === 0 || from === Infinity) return from + minutes;
  const start = nextInside(table.work, from);
  const end = start < 0 ? -1 : endOf(table.work, start, minutes);
  return end < 0 ? Infinity : end;
}

export function chooser(
  compiled: Compiled,
  state: State,
  windows: Windows,
  raised: Raised,
): Chooser {
  const { activities, horizon } = compiled;
  const window: Window = { startFrom: 0, startTo: 0, finishFrom: 0, finishTo: 0 };
  /** The same with nothing asked of the finish: shorter work would have to begin later for its sake. */
  const bare: Window = {
    startFrom: 0,
    startTo: Infinity,
    finishFrom: -Infinity,
    finishTo: Infinity,
  };
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
  const working = nobodyLooked(compiled);
  const inBreak = nobodyLooked(compiled);
  /** By crew of the mode looked at, from when it could begin; and where that may be in a break. */
  const froms = new Float64Array(MOST_CREWS);
  const eased = new Float64Array(MOST_CREWS);
  /** By crew, when it would finish at the earliest; Infinity once it was tried. */
  const soonest = new Float64Array(MOST_CREWS);
  let look = 0;
  /** No crew can begin earlier. */
  let base = 0;
  /** No start from here on is worth while. */
  let last = 0;

  /** A moment before which the crew cannot begin, whatever else there is. */
  const manned = (
    mode: CompiledMode,
    { booked, alone }: CrewOption,
    { free, looked }: Looked,
    relieved: boolean,
  ): number => {
    let from = base;
    for (let k = 0; k < booked.length; k += 1) {
      const b = booked[k];
      if (looked[b] !== look) {
        looked[b] = look;
        const table = relieved ? alone[k].relieved : alone[k].table;
        free[b] = aloneFrom(state, mode, table, b, mode.least, base);
      }
      if (free[b] > from) from = free[b];
    }
    return from;
  };

  /**
   * A moment before which nobody can begin the work in one piece: air, parts, resources and holds bar
   * the shortest, and so any. Infinity where they bar it for good.
   */
  const anybodyFrom = (a: number, m: number): number => {
    const work = works[a][m];
    const { mode, activity } = work;
    // The shortest may finish when it is forbidden, and longer work not.
    if (mode.pauses || activity.own.length > 0 || mode.forbiddenFinish !== null)
      return window.startFrom;
    work.crew = -1;
    work.option = null;
    work.table = mode.table;
    work.minutes = mode.least;
    bare.startFrom = window.startFrom;
    return earliestFit(compiled, state, work, bare, horizon + 1, Infinity, fit)
      ? fit.start
      : Infinity;
  };

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
  const tryCrew = (
    a: number,
    m: number,
    c: number,
    slack: number,
    thrift: number,
    from = window.startFrom,
    easy = window.startFrom,
  ): void => {
    const work = works[a][m];
    const { mode } = work;
    const option = mode.crews === null ? null : mode.crews[c];
    const overtime = option !== null && option.overtime;
    const extra = overtime && !bestOvertime ? slack + thrift : slack;
    const { startTo, finishTo } = window;
    const inBreaks = mode.relieved && !mode.pauses && option !== null && best.mode < 0;
    // Within the window if anything is, else nearer to it than what is known.
    const slip = best.mode < 0 ? missed : 1;
    const limit = Math.min(best.mode < 0 ? horizon + 1 : best.finish - extra, finishTo + slip);
    last = startTo + slip;
    // However free they were, they could not finish in time.
    const begin = inBreaks ? easy : from;
    if (option !== null && (begin >= last || begin + option.minutes >= limit)) return;
    if (option !== null) {
      work.crew = c;
      work.option = option;
      work.table = option.table;
      work.minutes = option.minutes;
    }
    let found = earliestFit(compiled, state, work, window, limit, last, fit, from);
    const asked = window.startFrom === told && fit.start > told;
    if (inBreaks && (asked || !(found && fit.start <= startTo && fit.finish <= finishTo))) {
      // Nobody should begin in a break that is relieved, but where the window or the genome (to
      // repeat a given plan) asks for it, it is allowed.
      work.table = option.relieved;
      found = earliestFit(compiled, state, work, window, limit, last, fit);
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

  /**
   * Tries crews, those first that could finish first, until none that is left could be better. Of crews
   * that finish together the first of the list is taken.
   */
  const tryLikeliest = (
    a: number,
    m: number,
    crews: readonly CrewOption[],
    thrift: number,
  ): void => {
    const { length } = crews;
    for (;;) {
      let next = 0;
      for (let c = 1; c < length; c += 1) if (soonest[c] < soonest[next]) next = c;
      if (soonest[next] === Infinity || (best.mode >= 0 && soonest[next] > best.finish)) return;
      const earlier = best.mode === m && next < best.crew;
      tryCrew(a, m, next, earlier ? -1 : 0, thrift, froms[next], eased[next]);
      soonest[next] = Infinity;
    }
  };

  const tryMode = (a: number, m: number, genome: Genome): void => {
    const mode = activities[a].modes[m];
    const { crews } = mode;
    if (crews === null) {
      tryCrew(a, m, -1, 0, 0);
      return;
    }
    base = window.startFrom;
    const wished = genome.crew[a];
    if (wished >= 0 && genome.mode[a] === m && wished < crews.length) {
      tryCrew(a, m, wished, 0, 0);
      if (best.mode >= 0) return;
    }
    if (crews.length < FEW) {
      for (let c = 0; c < crews.length; c += 1) tryCrew(a, m, c, genome.slack, genome.thrift);
      return;
    }
    base = anybodyFrom(a, m);
    look += 1;
    let { overtime } = crews[0];
    for (let c = 0; c < crews.length; c += 1) {
      if (crews[c].overtime !== overtime) {
        ({ overtime } = crews[c]);
        look += 1;
      }
      const option = crews[c];
      froms[c] = manned(mode, option, working, false);
      eased[c] = mode.relieved && !mode.pauses ? manned(mode, option, inBreak, true) : froms[c];
      if (genome.slack > 0) tryCrew(a, m, c, genome.slack, genome.thrift, froms[c], eased[c]);
      else soonest[c] = endAtLeast(mode, option, froms[c]) + (option.overtime ? genome.thrift : 0);
    }
    if (genome.slack === 0) tryLikeliest(a, m, crews, genome.thrift);
  };

  const lookAt = (a: number, m: number, genome: Genome): void => {
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
    if (!modal) lookAt(a, 0, genome);
    const wished = only >= 0 ? only : genome.mode[a];
    if (wished >= 0) {
      if (modal) lookAt(a, wished, genome);
      tryMode(a, wished, genome);
    }
    if (only >= 0 || best.mode >= 0) return;
    for (let m = 0; m < modes.length; m += 1) {
      if (m === wished) continue;
      if (modal) lookAt(a, m, genome);
      tryMode(a, m, genome);
    }
  };

  return {
    best,
    near,
    window,
    isAgain(a, genome, { mode, crew, start, finish }, known) {
      lookAt(a, mode, genome);
      if (
        window.startFrom !== known[4 * a] ||
        window.startTo !== known[4 * a + 1] ||
        window.finishFrom !== known[4 * a + 2] ||
        window.finishTo !== known[4 * a + 3]
      )
        return false;
      const work = works[a][mode];
      const { crews } = work.mode;
      if (crews !== null) {
        const option = crews[crew];
        work.crew = crew;
        work.option = option;
        work.table = option.table;
        work.minutes = option.minutes;
      }
      if (!earliestFit(compiled, state, work, window, finish + 1, start + 1, fit, start))
        return false;
      if (fit.start !== start || fit.finish !== finish) return false;
      take(best, work);
      return true;
    },
    search(a, genome, only) {
      best.mode = -1;
      near.mode = -1;
      bestOvertime = false;
      missed = Infinity;
      const { endsHolds, covers, modes } = activities[a];
      // What `a` covers it does not meet itself.
      const uncovers = covers.length > 0 && modes.some(({ dusty }) => dusty);
      if (endsHolds.length > 0) lendHolds(compiled, state, a);
      if (uncovers) for (const film of covers) hideFilm(state, film);
      searchWays(a, genome, only);
      if (uncovers) for (const film of covers) showFilm(compiled, state, film);
      if (endsHolds.length > 0) closeHolds(compiled, state, a, true);
    },
  };
}
