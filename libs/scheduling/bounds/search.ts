import type { Plan, ProvedBound, SearchState } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { compile } from '../search/crew/compiled/compiled.ts';
import type { Search } from '../search/search.ts';
import type { Analysis } from './critical-path.ts';
import { crewEnds, TOGETHER } from './crew-hours/bound.ts';
import { LearnedPart, type Attempt } from './finishes/learning.ts';
import { bestOrder, noEnds, raiseEnds, spread } from './finishes/orders.ts';
import { refuter } from './finishes/refute.ts';
import { vectorSearch, type Cost, type Refusal } from './finishes/vectors.ts';
import { promise } from './promise.ts';
import { firstRoot, type RootProof } from './root.ts';

/** Refutations by energy before the next part is looked at. */
const STEPS = 600;
/** Conflicts of an iteration. */
const CONFLICTS = 8;
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
 * shown with the effort that it allows itself. An iteration is a refutation by energy or a few
 * conflicts, and now and then the setting-up of a part.
 */
export function createBounds(
  problem: Problem,
  _seed: number,
  warmStart: Plan | null,
  root: RootProof | null = null,
): Search {
  const state = {
    root,
    best: warmStart,
    bounds: root?.bounds.slice() ?? nothing(),
    iterations: 0,
    done: root?.infeasible === true,
  };
  const running = work(problem, state);
  return {
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

interface State {
  root: RootProof | null;
  best: Plan | null;
  bounds: ProvedBound[];
  iterations: number;
  done: boolean;
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
}

function partFor(lifting: Lifting, refits: readonly number[], until: number): LearnedPart {
  const { parts, analysis } = lifting;
  const key = refits.join();
  const known = parts.get(key);
  parts.delete(key);
  const part =
    known !== undefined && known.until >= until
      ? known
      : new LearnedPart(analysis, refits, until + AHEAD);
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

/** Goes on with a part until caps are decided or the effort is spent. */
function* decide(
  part: LearnedPart,
  caps: readonly number[],
  effort: number,
): Generator<undefined, Attempt> {
  for (let spent = 0; spent < effort; spent += CONFLICTS) {
    yield;
    const attempt = part.attempt(caps, CONFLICTS);
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
  const base = asked.slice();
  let found = false;
  for (const r of refits) {
    let possible = horizon + 1;
    for (let step = found ? FIRST_STEP : 0; base[r] + step < possible || !found;) {
      const caps = base.slice();
      caps[r] = Math.min(base[r] + step, possible - 1);
      const latest = refits.reduce((most, one) => Math.max(most, caps[one]), 0);
      const part = partFor(lifting, refits, latest);
      if (part.size > LARGEST) return found;
      const attempt = yield* decide(part, caps, effort);
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
  };
  const byEnergy = refuter(analysis);
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
