import type { CrewDemand } from '../../model/problem.ts';
import { speedFor } from '../../search/crew/compiled/crews.ts';
import type { Analysis } from '../critical-path.ts';
import { isCertain } from '../domains.ts';
import { tailsOf } from './tails.ts';

/** Builders who can do one kind of work, each with the units done in a minute (100 is nominal). */
export interface Ability {
  readonly builders: readonly number[];
  readonly rates: readonly number[];
}

/** Work of one kind that a refit needs in any case. */
export interface Work {
  readonly refit: number;
  /** Index into `abilities`. */
  readonly ability: number;
  /** Units, at least so many. */
  readonly units: number;
  /** None of it can be done before this minute. */
  readonly head: number;
  /** All of it is done so many minutes before the refit's finish. */
  readonly tail: number;
  /** May run on through breaks. */
  readonly relieved: boolean;
}

export interface Demand {
  readonly abilities: readonly Ability[];
  readonly work: readonly Work[];
}

interface Share {
  readonly ability: number;
  units: number;
  head: number;
  tail: number;
  relieved: boolean;
}

type Shares = Map<number, Share>;

/** Of several ways to do something, what each kind of work takes at least. */
const least = (ways: readonly Shares[]): Shares =>
  ways.length === 0 ? new Map<number, Share>() : ways.reduce(leastOfTwo);

function leastOfTwo(a: Shares, b: Shares): Shares {
  const both: Shares = new Map();
  for (const [key, x] of a) {
    const y = b.get(key);
    if (!y) continue;
    both.set(key, {
      ability: key,
      units: Math.min(x.units, y.units),
      head: Math.min(x.head, y.head),
      tail: Math.min(x.tail, y.tail),
      relieved: x.relieved || y.relieved,
    });
  }
  return both;
}

function add(to: Shares, from: Shares): void {
  for (const [key, y] of from) {
    const x = to.get(key);
    if (!x) {
      to.set(key, { ...y });
      continue;
    }
    x.units += y.units;
    x.head = Math.min(x.head, y.head);
    x.tail = Math.min(x.tail, y.tail);
    x.relieved ||= y.relieved;
  }
}

/**
 * The crew work that each refit needs whatever is chosen. A mode with one demand needs its
 * work content at the builders' speeds; one with several needs each head for at least the
 * quickest duration. Clean-down counts where it is over before the refit is. Of modes, and of a
 * choice's branches, only what all of them need counts. What somebody can do who is in several
 * places at once is never short.
 */
export function demandOf(analysis: Analysis): Demand {
  const { root, domains, assumed } = analysis;
  const { problem, compiled, ways } = root;
  const tails = tailsOf(analysis);
  const abilities: Ability[] = [];
  const known = new Map<string, number>();

  /** Null where it is never short. */
  const abilityFor = (
    demand: CrewDemand,
    only: readonly number[] | null,
    bySpeed: boolean,
  ): number | null => {
    const able = problem.builders.flatMap((_, b) => {
      const speed = only === null || only.includes(b) ? speedFor(problem, b, demand) : 0;
      return speed > 0 ? [{ b, rate: bySpeed ? speed : 100 }] : [];
    });
    if (able.some(({ b }) => problem.builders[b].unlimited)) return null;
    const key = able.map(({ b, rate }) => `${String(b)}:${String(rate)}`).join();
    let index = known.get(key);
    if (index === undefined) {
      index = abilities.length;
      known.set(key, index);
      abilities.push({ builders: able.map((x) => x.b), rates: able.map((x) => x.rate) });
    }
    return index;
  };

  const sharesIn = (a: number, m: number): Shares => {
    const { fixed, modes } = problem.activities[a];
    const mode = modes[m];
    const only = fixed?.kind === 'set' ? fixed.builders : null;
    const relieved = !mode.splittable && mode.breaks === 'relieved';
    const own: Shares = new Map();
    const head = domains.startFrom[a];
    const share = (ability: number | null, units: number, tail: number): void => {
      if (ability !== null)
        add(own, new Map([[ability, { ability, units, head, tail, relieved }]]));
    };
    for (const demand of mode.crew) {
      const alone = mode.crew.length === 1;
      const units = alone ? mode.work : 100 * demand.count * compiled.activities[a].modes[m].least;
      share(abilityFor(demand, only, alone), units, tails[a]);
      if (mode.cleanDown > 0 && tails[a] >= mode.cleanDown)
        share(
          abilityFor(demand, only, false),
          100 * demand.count * mode.cleanDown,
          tails[a] - mode.cleanDown,
        );
    }
    return own;
  };
  const sharesOf = (a: number): Shares =>
    least([...new Set(ways[a].map(({ mode }) => mode))].map((m) => sharesIn(a, m)));

  const work: Work[] = [];
  const emit = (refit: number, shares: Shares): void => {
    for (const share of shares.values()) if (share.units > 0) work.push({ refit, ...share });
  };
  problem.activities.forEach(({ refit, fixed }, a) => {
    if (refit !== null && fixed?.kind !== 'frozen' && isCertain(root, assumed, a))
      emit(refit, sharesOf(a));
  });
  problem.choices.forEach((choice, c) => {
    if (assumed.taken[c] >= 0) return;
    problem.refits.forEach((_, r) => {
      const possible = choice.branches.filter((_, b) => assumed.possible[c][b] === 1);
      const shares = possible.map((branch) => {
        const own: Shares = new Map();
        for (const a of branch.activities) {
          const { refit, fixed } = problem.activities[a];
          if (refit === r && fixed?.kind !== 'frozen') add(own, sharesOf(a));
        }
        return own;
      });
      emit(r, least(shares));
    });
  });
  return { abilities, work };
}
