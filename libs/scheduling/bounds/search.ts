import type { Plan, ProvedBound, SearchState } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { compile } from '../search/crew/compiled/compiled.ts';
import type { Search } from '../search/search.ts';
import { crewEnds, TOGETHER } from './crew-hours/bound.ts';
import { bestOrder, noEnds, raiseEnds, spread } from './finishes/orders.ts';
import { refuse, AHEAD, type BoundsCounts, type Lifting } from './finishes/lifting.ts';
import { needsOf } from './finishes/pieces.ts';
import { pricedHours, type PricedHours } from './finishes/priced.ts';
import { refuter, windowsOf, type Refute } from './finishes/refute.ts';
import { vectorSearch, type Cost } from './finishes/vectors.ts';
import { promise } from './promise.ts';
import { firstRoot, type RootProof } from './root.ts';

/** Refutations by energy before the next part is looked at. */
const STEPS = 600;
/** Conflicts that a part gets for one vector of caps at first; doubled in each round. */
const EFFORT = 240;
const ROUNDS = 7;
/** Changes of prices at most, each time that least finishes have changed. */
const PRICINGS = 3000;
/** Beyond so many activities hours are not priced: what one refit buys may take longer than stopping may. */
const PRICED = 1500;

/**
 * Lower bounds of ranks 1 and 2 that hold for every plan, step by step: what the crew can do in the days
 * left, then single refits and pairs of them by the learning core, each time combined over all
 * vectors of finishes (see `vectorSearch`). Never finds a plan; done when nothing more can be
 * shown with the effort that it allows itself. An iteration is a refutation by energy, a few
 * conflicts, or a piece of the setting-up of a part.
 */
export function createBounds(
  problem: Problem,
  _seed: number,
  warmStart: Plan | null,
  root: RootProof | null = null,
): BoundsSearch {
  const state: State = {
    root,
    best: warmStart,
    bounds: root?.bounds.slice() ?? nothing(),
    iterations: 0,
    done: root?.infeasible === true,
    counts: { conflicts: 0, propagations: 0, pieces: 0, refutations: 0, looks: 0 },
  };
  const running = work(problem, state);
  return {
    counts: () => ({ ...state.counts }),
    step(count) {
      for (let k = 0; k < count && !state.done; k += 1) {
        state.iterations += 1;
        if (running.next().done === true) state.done = true;
      }
      return stateOf(state);
    },
    receive(plan, bounds) {
      if (plan !== null) state.best = plan;
      bounds.forEach((one, rank) => {
        if (one.caps.length === 0 && one.bound > state.bounds[rank].bound) state.bounds[rank] = one;
      });
    },
  };
}

export interface BoundsSearch extends Search {
  counts(): Readonly<BoundsCounts>;
}

interface State {
  root: RootProof | null;
  best: Plan | null;
  bounds: ProvedBound[];
  iterations: number;
  done: boolean;
  readonly counts: BoundsCounts;
}

const nothing = (): ProvedBound[] =>
  Array.from({ length: 4 }, () => ({ bound: 0, caps: [], proof: 'none' }));

const stateOf = ({ root, bounds, iterations, done }: State): SearchState => ({
  status: root?.infeasible === true ? 'infeasible' : 'unknown',
  plan: null,
  bounds: bounds.slice(),
  iterations,
  done,
});

function* work(problem: Problem, state: State): Generator<undefined> {
  state.root ??= firstRoot(compile(problem));
  const { analysis, infeasible, bounds } = state.root;
  bounds.forEach((one, rank) => {
    if (one.bound > state.bounds[rank].bound) state.bounds[rank] = one;
  });
  if (infeasible) return;
  yield;
  const { refits, horizon } = problem;
  const lifting: Lifting = {
    analysis,
    least: [...analysis.finishes],
    refusals: [],
    parts: new Map(),
    tooLarge: new Set(),
    counts: state.counts,
  };
  const needs = needsOf(analysis);
  const windows = windowsOf(analysis, needs);
  const refute = refuter(problem, needs, windows);
  const byEnergy: Refute = (caps) => {
    state.counts.refutations += 1;
    return refute(caps);
  };
  yield;
  const costs: readonly Cost[] = [
    (r, finish) => promise(problem, r, finish),
    (r, finish) => refits[r].weight * finish,
  ];
  const isMet = (rank: number): boolean =>
    state.best !== null && state.best.values[rank] <= state.bounds[rank].bound;

  const lift = (rank: number, bound: number): void => {
    if (bound < Infinity && bound > state.bounds[rank].bound)
      state.bounds[rank] = { bound, caps: [], proof: 'finishes' };
  };
  const sets = noEnds(refits.map(({ weight }) => weight));
  /** What the refits come to one after the other. */
  const raise = (): void => {
    costs.forEach((cost, rank) => {
      lift(rank, bestOrder(sets, lifting.least, cost).cost);
    });
  };

  /** Raises the bound of a rank as far as energy and refusals go; the cheapest vector left open. */
  function* combine(rank: number, steps: number): Generator<undefined, readonly number[] | null> {
    const { least, refusals } = lifting;
    const vectors = vectorSearch(least, horizon, costs[rank], byEnergy, refusals);
    for (let k = 0; k < steps && !vectors.done; k += 1) {
      yield;
      vectors.step();
    }
    lift(rank, vectors.bound);
    return vectors.open;
  }

  /** Prices of hours by rank, made when first asked for. */
  const priced = new Map<number, { hours: PricedHours; least: string }>();
  const latest = state.best?.finishes.reduce((most, finish) => Math.max(most, finish), 0);

  /** Raises the bound of a rank by prices of hours, if least finishes have changed since. */
  function* price(rank: number): Generator<undefined> {
    if (problem.activities.length > PRICED) return;
    const least = lifting.least.join();
    const known = priced.get(rank);
    if (known?.least === least) return;
    const until = Math.min(horizon, (latest ?? horizon) + AHEAD);
    const hours =
      known?.hours ?? pricedHours(problem, needs, windows, lifting.least, costs[rank], until);
    if (known !== undefined) hours.again();
    priced.set(rank, { hours, least });
    const last = hours.counts.changes + PRICINGS;
    while (hours.counts.changes < last && !hours.done && !isMet(rank)) {
      yield;
      const { windows: looked, looks } = hours.counts;
      hours.step();
      state.counts.refutations += hours.counts.windows - looked;
      state.counts.looks += hours.counts.looks - looks;
      lift(rank, hours.bound);
    }
  }

  // The heaviest come first in both: the sets have the same numbers.
  sets.ends.set(yield* crewEnds(analysis, sets.refits.slice(0, TOGETHER)));
  spread(sets);
  raise();
  for (const rank of [1, 0]) {
    if (isMet(rank)) continue;
    yield* raiseEnds(sets, lifting.least, horizon, costs[rank], byEnergy);
    raise();
    yield* price(rank);
  }
  const open = refits.flatMap((_, r) => (lifting.least[r] > 0 ? [r] : []));
  for (let round = 0, effort = EFFORT; round < ROUNDS; round += 1, effort *= 2) {
    for (const rank of [0, 1]) if (!isMet(rank)) yield* combine(rank, STEPS);
    for (const r of open) {
      yield* refuse(lifting, [r], lifting.least, effort);
      raise();
    }
    for (const rank of [0, 1]) {
      if (isMet(rank)) continue;
      yield* raiseEnds(sets, lifting.least, horizon, costs[rank], byEnergy);
      raise();
      yield* price(rank);
      let vector = yield* combine(rank, STEPS << round);
      // Where energy shows nothing of the cheapest vector, pairs of its refits may.
      for (let tries = 0; vector !== null && tries < 4 << round; tries += 1) {
        const caps = vector;
        let found = false;
        for (const [i, r] of open.entries())
          for (const other of open.slice(i + 1))
            if (!found) found = yield* refuse(lifting, [r, other], caps, effort);
        if (!found) break;
        vector = yield* combine(rank, STEPS << round);
      }
    }
    if (isMet(0) && isMet(1)) return;
  }
}
