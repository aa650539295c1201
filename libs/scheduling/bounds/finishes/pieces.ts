import type { CrewDemand } from '../../model/problem.ts';
import { speedFor } from '../../search/crew/compiled/crews.ts';
import type { Analysis } from '../critical-path.ts';
import { isCertain } from '../domains.ts';

/** Builders who can do one kind of work, and how much of it each does in a minute. */
export interface Kind {
  readonly builders: readonly number[];
  readonly rates: readonly number[];
  /** May run on through breaks. */
  readonly relieved: boolean;
}

/** Crew work that a refit needs in every plan, somewhere between the first start and the last finish of some activities. */
export interface Piece {
  readonly refit: number;
  readonly kind: number;
  /** Units of work: 100 are a nominal builder's minute. */
  readonly units: number;
  /** The most units that can be done of it in a minute. */
  readonly rate: number;
  /** One, or those of which some are done. */
  readonly activities: readonly number[];
  /** Minutes of clean-down, of which the piece consists; 0 for the work itself. */
  readonly cleanDown: number;
}

export interface Needs {
  readonly kinds: readonly Kind[];
  readonly pieces: readonly Piece[];
}

interface Share {
  units: number;
  rate: number;
}

/** By kind and clean-down. */
type Shares = Map<string, Share & { readonly kind: number; readonly cleanDown: number }>;

/** What each of several ways needs at least. */
function least(ways: readonly Shares[]): Shares {
  const both: Shares = new Map();
  for (const [key, share] of ways.at(0) ?? []) {
    const others = ways.map((way) => way.get(key));
    if (others.some((one) => one === undefined)) continue;
    both.set(key, {
      ...share,
      units: Math.min(...others.map((one) => one?.units ?? 0)),
      rate: Math.max(...others.map((one) => one?.rate ?? 0)),
    });
  }
  return both;
}

/**
 * The crew work of each refit whatever is chosen: of modes and of a choice's branches only what all
 * that are possible need. A mode with one demand needs its work content at the builders' speeds; one
 * with several, and clean-down, needs each head for some minutes, counted at the slowest builder's
 * speed. What somebody can do who is in several places at once is never short and is left out.
 */
export function needsOf({ root, assumed }: Analysis): Needs {
  const { problem, compiled, ways } = root;
  const kinds: Kind[] = [];
  const known = new Map<string, number>();

  const speedsFor = (demand: CrewDemand, only: readonly number[] | null): [number, number][] =>
    problem.builders.flatMap((_, b): [number, number][] => {
      const speed = only === null || only.includes(b) ? speedFor(problem, b, demand) : 0;
      return speed > 0 ? [[b, speed]] : [];
    });
  const kindOf = (speeds: readonly [number, number][], relieved: boolean): number => {
    const key = `${speeds.join(';')}|${String(relieved)}`;
    const index = known.get(key) ?? kinds.length;
    if (index === kinds.length) {
      known.set(key, index);
      kinds.push({ builders: speeds.map(([b]) => b), rates: speeds.map(([, r]) => r), relieved });
    }
    return index;
  };

  const sharesIn = (a: number, m: number): Shares => {
    const { fixed, modes } = problem.activities[a];
    const mode = modes[m];
    const only = fixed?.kind === 'set' ? fixed.builders : null;
    const relieved = !mode.splittable && mode.breaks === 'relieved';
    const minutes = compiled.activities[a].modes[m].least;
    const shares: Shares = new Map();
    const add = (kind: number, cleanDown: number, units: number, rate: number): void => {
      const key = `${String(kind)} ${String(cleanDown)}`;
      const own = shares.get(key) ?? { kind, cleanDown, units: 0, rate: 0 };
      own.units += units;
      own.rate += rate;
      shares.set(key, own);
    };
    for (const demand of mode.crew) {
      const speeds = speedsFor(demand, only);
      if (speeds.length === 0 || speeds.some(([b]) => problem.builders[b].unlimited)) continue;
      const rates = speeds.map(([, rate]) => rate).sort((x, y) => y - x);
      const slowest = rates[rates.length - 1];
      const most = rates.slice(0, demand.count).reduce((sum, rate) => sum + rate, 0);
      const kind = kindOf(speeds, relieved);
      const heads = demand.count * slowest;
      const work = mode.crew.length === 1 ? mode.work : 0;
      add(kind, 0, Math.max(work, heads * minutes), most);
      if (mode.cleanDown > 0 && minutes > 0)
        add(kind, mode.cleanDown, heads * mode.cleanDown, most);
    }
    return shares;
  };
  const sharesOf = (a: number): Shares =>
    least([...new Set(ways[a].map(({ mode }) => mode))].map((m) => sharesIn(a, m)));

  const pieces: Piece[] = [];
  const emit = (refit: number, activities: readonly number[], shares: Shares): void => {
    for (const share of shares.values())
      if (share.units > 0) pieces.push({ refit, activities, ...share });
  };
  problem.activities.forEach(({ refit, fixed }, a) => {
    if (refit !== null && fixed?.kind !== 'frozen' && isCertain(root, assumed, a))
      emit(refit, [a], sharesOf(a));
  });
  problem.choices.forEach(({ branches }, c) => {
    if (assumed.taken[c] >= 0) return;
    const possible = branches.filter((_, b) => assumed.possible[c][b] === 1);
    problem.refits.forEach((_, r) => {
      const own = possible.map(({ activities }) =>
        activities.filter((a) => {
          const { refit, fixed } = problem.activities[a];
          return refit === r && fixed?.kind !== 'frozen';
        }),
      );
      if (own.some((activities) => activities.length === 0)) return;
      const shares = own.map((activities) => {
        const sum: Shares = new Map();
        for (const a of activities)
          for (const [key, share] of sharesOf(a)) {
            const before = sum.get(key);
            if (before) {
              before.units += share.units;
              before.rate += share.rate;
            } else sum.set(key, { ...share });
          }
        return sum;
      });
      emit(r, own.flat(), least(shares));
    });
  });
  return { kinds, pieces };
}
