import { random as seeded } from '#kernel/random.ts';
import { partOf } from '../../bounds/finishes/part.ts';
import type { RootProof } from '../../bounds/root.ts';
import type { Plan, ProvedBound, SearchState } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { compile, type Compiled } from '../crew/compiled/compiled.ts';
import { shuffled, smithOrder } from '../crew/search/rules.ts';
import { crewSearch, type CrewSearch } from '../crew/search/search.ts';
import { incumbent } from '../incumbent.ts';
import type { Search } from '../search.ts';

/** Activities looked at in decodes for some of the refits, and for all of them, by activity of the problem. */
const SOME = 1000;
const ALL = 3000;
/** What a decode counts for at least: with little to move, most neighbours are what there is already. */
const FEWEST = 20;
/** Plans of some refits that are kept at most. */
const KEPT = 32;
/** Orders in a row that some first refits of which gave no plan, after which it is for others to look for plans. */
const FAILED = 3;

/** What has been done so far, for whoever prices an iteration. */
export interface TurnsCounts {
  /** Activities looked at, `FEWEST` a decode at least. */
  looks: number;
  tries: number;
  /** Activities of problems that were made from some of the refits. */
  made: number;
}

export interface TurnsSearch extends Search {
  counts(): Readonly<TurnsCounts>;
}

/** The refits of which anything is left to be decided; the others go along with any. */
function openRefits({ activities, refits }: Problem): number[] {
  const open = new Set(
    activities.map(({ refit, fixed }) => (fixed?.kind === 'frozen' ? null : refit)),
  );
  return refits.flatMap((_, r) => (open.has(r) ? [r] : []));
}

/** Whether refits in turn are worth while: two are soon had in both orders by whoever moves single activities. */
export const hasTurns = (problem: Problem): boolean =>
  openRefits(problem).filter((r) => problem.refits[r].weight > 0).length > 2;

/** Weight of nothing but these refits, for which alone promises count; money does not. */
function onlyFor(
  problem: Problem,
  own: readonly number[],
): { problem: Problem; ids: readonly number[] } {
  const { problem: part, activities: ids } = partOf(problem, own, problem.horizon);
  const refits = problem.refits.map((refit, r) =>
    own.includes(r) ? refit : { ...refit, due: null, handovers: [], weight: 0 },
  );
  return { problem: { ...part, refits }, ids };
}

/**
 * Plans by refits in turn: the first refits of an order are planned by themselves, then one more each
 * time from the plan for those before, at last all; then the same for an order with a refit or two
 * moved elsewhere. A search that moves single activities hardly ever gets a whole refit past another, over
 * a week-end at that, since every plan on the way is worse; and with few refits a decode is quick.
 * Building up by parts that are optimised anew at each step is the shifting bottleneck's idea (Adams,
 * Balas & Zawack, Management Science 34, 1988), here with refits for machines. Proves nothing.
 */
export function createTurns(
  problem: Problem,
  seed: number,
  warmStart: Plan | null,
  compiled: Compiled,
  root: RootProof,
): TurnsSearch {
  const random = seeded(seed);
  const best = incumbent(problem.tolerances);
  const counts: TurnsCounts = { looks: 0, tries: 0, made: 0 };
  const { bounds: proved, analysis } = root;
  const { domains } = analysis;
  /** By the refits in their order: activities as of the whole problem. */
  const partial = new Map<string, Plan>();
  let iterations = 0;
  let done = !hasTurns(problem);
  const open = openRefits(problem);

  /**
   * Decodes until so many activities have been looked at: in each iteration as many as look at about
   * all there are. So an iteration costs much the same for one refit as for all of them, and a price
   * learned from the first stages holds in the last.
   */
  function* drive(
    search: CrewSearch,
    looks: number,
    onPlan: (plan: Plan) => void,
  ): Generator<undefined, Plan | null> {
    let before = search.counts();
    let { plan, done: over } = search.step(0);
    for (let left = looks, due = 0; !over && left > 0;) {
      if (due <= 0) {
        yield;
        due += problem.activities.length;
      }
      const state = search.step(1);
      const now = search.counts();
      const looked = Math.max(FEWEST, now.looks - before.looks);
      counts.looks += looked;
      counts.tries += now.tries - before.tries;
      left -= looked;
      due -= looked;
      before = now;
      over = state.done;
      if (state.plan !== null && state.plan !== plan) onPlan(state.plan);
      plan = state.plan;
    }
    return plan;
  }

  /** A plan for these refits, the last of them being new to the plan to start from. */
  function* planFor(own: readonly number[], from: Plan | null): Generator<undefined, Plan | null> {
    const key = own.join();
    const known = partial.get(key);
    if (known !== undefined) return known;
    const { problem: part, ids } = onlyFor(problem, own);
    counts.made += ids.length;
    yield;
    const at = new Map(ids.map((a, i) => [a, i]));
    const warm = from && {
      ...from,
      placements: from.placements.flatMap((one) => {
        const activity = at.get(one.activity);
        return activity === undefined ? [] : [{ ...one, activity }];
      }),
    };
    const of = (all: ArrayLike<number>): Float64Array => Float64Array.from(ids, (a) => all[a]);
    const search = crewSearch(part, random.below(1 << 30), warm, {
      compiled: { ...compile(part), branches: compiled.branches },
      windows: {
        startFrom: of(domains.startFrom),
        startTo: of(domains.startTo),
        finishFrom: of(domains.finishFrom),
        finishTo: of(domains.finishTo),
      },
      bounds: proved.map(() => ({ bound: 0, caps: [], proof: 'none' })),
    });
    const plan = yield* drive(search, SOME * problem.activities.length, () => undefined);
    if (plan === null) return null;
    const whole = {
      ...plan,
      placements: plan.placements.map((one) => ({ ...one, activity: ids[one.activity] })),
    };
    if (partial.size >= KEPT) partial.clear();
    partial.set(key, whole);
    return whole;
  }

  /** As they finish in the best plan that anybody has found. */
  const orderOf = ({ finishes }: Plan): number[] =>
    finishes.map((_, r) => r).sort((a, b) => finishes[a] - finishes[b] || a - b);

  function* work(): Generator<undefined> {
    for (let round = 0, failed = 0; failed < FAILED; round += 1) {
      const all = best.plan === null ? smithOrder(compiled) : orderOf(best.plan);
      const order = all.filter((r) => open.includes(r));
      const next = round === 0 ? order : shuffled(order, random);
      let from: Plan | null = null;
      for (let count = 1; count < next.length; count += 1) {
        from = yield* planFor(next.slice(0, count), from);
        if (from === null) break;
      }
      failed = from === null ? failed + 1 : 0;
      if (from === null) continue;
      const search = crewSearch(problem, random.below(1 << 30), from, {
        compiled,
        windows: domains,
        bounds: proved,
      });
      yield* drive(search, ALL * problem.activities.length, (better) => {
        best.offer(better.values, () => better);
      });
    }
  }

  const running = work();
  if (warmStart !== null) best.offer(warmStart.values, () => warmStart);

  const state = (): SearchState => ({
    status: best.plan === null ? 'unknown' : 'feasible',
    plan: best.plan,
    bounds: proved,
    iterations,
    done,
  });

  return {
    counts: () => ({ ...counts }),
    leading: () => best.leading,
    step(count) {
      for (let k = 0; k < count && !done; k += 1) {
        iterations += 1;
        if (running.next().done === true) done = true;
      }
      return state();
    },
    receive(plan, known) {
      if (plan !== null) best.offer(plan.values, () => plan);
      const isMet = ({ bound, caps }: ProvedBound, rank: number): boolean =>
        best.least[rank] <= bound && caps.every((cap, r) => cap >= best.cap(r));
      // Of later ranks it knows no more than other decodes.
      if (known.slice(0, 2).every(isMet)) done = true;
    },
  };
}
