import type { CrewDemand } from '../../model/problem.ts';
import type { Compiled } from '../../search/crew/compiled.ts';
import { speedFor } from '../../search/crew/crews.ts';
import type { Analysis } from '../critical-path.ts';
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
 * quickest duration. Of modes, and of a choice's branches, only what all of them need counts.
 */
export function demandOf(compiled: Compiled, analysis: Analysis): Demand {
  const { problem, activities } = compiled;
  const { domains, assumed } = analysis;
  const tails = tailsOf(compiled, analysis);
  const abilities: Ability[] = [];
  const known = new Map<string, number>();

  const abilityFor = (
    demand: CrewDemand,
    only: readonly number[] | null,
    bySpeed: boolean,
  ): number => {
    const able = problem.builders.flatMap((_, b) => {
      const speed = only === null || only.includes(b) ? speedFor(problem, b, demand) : 0;
      return speed > 0 ? [{ b, rate: bySpeed ? speed : 100 }] : [];
    });
    const key = able.map(({ b, rate }) => `${String(b)}:${String(rate)}`).join();
    let index = known.get(key);
    if (index === undefined) {
      index = abilities.length;
      known.set(key, index);
      abilities.push({ builders: able.map((x) => x.b), rates: able.map((x) => x.rate) });
    }
    return index;
  };

  const sharesOf = (a: number): Shares => {
    const ways = problem.activities[a].modes.map((mode, m) => {
      const { fixed } = problem.activities[a];
      const only = fixed?.kind === 'set' ? fixed.builders : null;
      const own: Shares = new Map();
      for (const demand of mode.crew) {
        const alone = mode.crew.length === 1;
        const units = alone ? mode.work : 100 * demand.count * activities[a].modes[m].least;
        const ability = abilityFor(demand, only, alone);
        const relieved = !mode.splittable && mode.breaks === 'relieved';
        add(
          own,
          new Map([
            [ability, { ability, units, head: domains.startFrom[a], tail: tails[a], relieved }],
          ]),
        );
      }
      return own;
    });
    return least(ways);
  };

  const work: Work[] = [];
  const emit = (refit: number, shares: Shares): void => {
    for (const share of shares.values()) if (share.units > 0) work.push({ refit, ...share });
  };
  activities.forEach(({ choice, branch, refit, frozen }, a) => {
    if (refit < 0 || frozen || (choice >= 0 && assumed.taken[choice] !== branch)) return;
    emit(refit, sharesOf(a));
  });
  problem.choices.forEach((choice, c) => {
    if (assumed.taken[c] >= 0) return;
    problem.refits.forEach((_, r) => {
      const possible = choice.branches.filter((_, b) => assumed.possible[c][b] === 1);
      const ways = possible.map((branch) => {
        const own: Shares = new Map();
        for (const a of branch.activities)
          if (activities[a].refit === r && !activities[a].frozen) add(own, sharesOf(a));
        return own;
      });
      emit(r, least(ways));
    });
  });
  return { abilities, work };
}
