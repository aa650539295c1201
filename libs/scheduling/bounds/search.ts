import type { Plan, ProvedBound, SearchState } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { compile } from '../search/crew/compiled/compiled.ts';
import type { Search } from '../search/search.ts';
import type { Analysis } from './critical-path.ts';
import { crewEnds, TOGETHER } from './crew-hours/bound.ts';
import { LearnedPart, type Attempt } from './finishes/learning.ts';
import { bestOrder, noEnds, raiseEnds, spread } from './finishes/orders.ts';
import { refuter, type Refute } from './finishes/refute.ts';
import { vectorSearch, type Cost, type Refusal } from './finishes/vectors.ts';
import { promise } from './promise.ts';
import { firstRoot, type RootProof } from './root.ts';

/** Refutations by energy before the next part is looked at. */
const STEPS = 600;
/** Conflicts that a part gets for one vector of caps at first; doubled in each round. */
const EFFORT = 240;
const ROUNDS = 7;
/** Parts with more activities are not looked at: to set one up takes longer than can be waited for. */
const LARGEST = 72;
/** Parts kept, with what they have learned. */
const PARTS = 8;
/** How far beyond the finishes asked about a part reaches: a week. */
const AHEAD = 10_080;
const FIRST_STEP = 60;

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
    counts: { conflicts: 0, propagations: 0, pieces: 0, refutations: 0 },
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

/** What has been done so far, for whoever prices an iteration. */
export interface BoundsCounts {
  /** Conflicts of parts, and rises of bounds in them. */
  conflicts: number;
  propagations: number;
  /** Pieces of the setting up of parts. */
  pieces: number;
  /** Caps looked at by energy. */
  refutations: number;
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

/** What is known of one problem while its bounds are lifted. */
interface Lifting {
  readonly analysis: Analysis;
  readonly least: number[];
  readonly refusals: Refusal[];
  readonly parts: Map<string, LearnedPart>;
  /** Refits of which a part has too many activities, however far it reaches. */
  readonly tooLarge: Set<string>;
  readonly counts: BoundsCounts;
}

/** Null: it has too many activities. */
function partFor(lifting: Lifting, refits: readonly number[], until: number): LearnedPart | null {
  const { parts, tooLarge, analysis } = lifting;
  const key = refits.join();
  const known = parts.get(key);
  const part =
    known !== undefined && known.until >= until
      ? known
      : new LearnedPart(analysis, refits, until + AHEAD);
  if (part.size > LARGEST) {
    tooLarge.add(key);
    return null;
  }
  parts.delete(key);
  parts.set(key, part);
  for (const oldest of parts.keys()) {
    if (parts.size <= PARTS) break;
    parts.delete(oldest);
  }
  return part;
}

/** Keeps a refusal; one of a single refit is its own bound. */
function keep({ least, refusals }: Lifting, refusal: Refusal): void {
  const [first, ...others] = refusal.refits;
  if (others.length > 0) refusals.push(refusal);
  else least[first] = Math.max(least[first], refusal.caps[first] + 1);
}

/** Goes on with a part until caps are decided, or that many conflicts or slices of work are spent. */
function* decide(
  counts: BoundsCounts,
  part: LearnedPart,
  caps: readonly number[],
  effort: number,
): Generator<undefined, Attempt> {
  while (!part.isReady) {
    yield;
    counts.pieces += 1;
    part.prepare();
  }
  const until = part.conflicts + effort;
  for (let slices = 0; slices < effort && part.conflicts < until; slices += 1) {
    yield;
    const { conflicts, propagations } = part;
    const attempt = part.attempt(caps);
    counts.conflicts += part.conflicts - conflicts;
    counts.propagations += part.propagations - propagations;
    if (attempt.kind !== 'open') return attempt;
  }
  return { kind: 'open' };
}

/**
 * Tries to refuse caps, and where that succeeds later ones, of one refit after the other. Steps double
 * while they succeed; a plan of the part that turns up says what need not be tried. True if any
 * caps were refused.
 */
function* refuse(
  lifting: Lifting,
  refits: readonly number[],
  asked: readonly number[],
  effort: number,
): Generator<undefined, boolean> {
  const { horizon } = lifting.analysis.root.problem;
  if (lifting.tooLarge.has(refits.join())) return false;
  const base = asked.slice();
  let found = false;
  for (const r of refits) {
    let possible = horizon + 1;
    for (let step = found ? FIRST_STEP : 0; base[r] + step < possible || !found;) {
      const caps = base.slice();
      caps[r] = Math.min(base[r] + step, possible - 1);
      const latest = refits.reduce((most, one) => Math.max(most, caps[one]), 0);
      const part = partFor(lifting, refits, latest);
      if (part === null) {
        yield;
        return found;
      }
      const attempt = yield* decide(lifting.counts, part, caps, effort);
      if (attempt.kind === 'refused') {
        const { refusal } = attempt;
        keep(lifting, refusal);
        for (const one of refits) base[one] = Math.max(caps[one], refusal.caps[one]);
        found = true;
        step = Math.max(FIRST_STEP, 2 * step);
      } else if (!found) return false;
      else if (attempt.kind === 'open') {
        if (step <= FIRST_STEP) break;
        step >>= 2;
      } else {
        possible = Math.min(possible, attempt.finishes[r]);
        step = possible - 1 - base[r];
        if (step <= 0) break;
      }
    }
  }
  return found;
}

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
  const refute = refuter(analysis);
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

  // The heaviest come first in both: the sets have the same numbers.
  sets.ends.set(yield* crewEnds(analysis, sets.refits.slice(0, TOGETHER)));
  spread(sets);
  raise();
  for (const rank of [1, 0]) {
    if (isMet(rank)) continue;
    yield* raiseEnds(sets, lifting.least, horizon, costs[rank], byEnergy);
    raise();
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
