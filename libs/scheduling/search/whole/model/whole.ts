import type { Problem } from '../../../model/problem.ts';
import { lowerOf } from '../../../propagation/literal.ts';
import type { Network } from '../../../propagation/network.ts';
import { shift } from '../rules/monotone.ts';
import { addAir } from './air.ts';
import { addCliques } from './cliques.ts';
import { classesOf, type Classes } from './crews.ts';
import { Draft, not, type Condition } from './draft.ts';
import { addLags, byMode, joined, opening } from './ends.ts';
import type { Focus } from './focus.ts';
import { addLocations } from './located.ts';
import { clash, ordersOf, type Orders } from './orders.ts';
import { ranksOf, type RankVariables } from './ranks.ts';
import { addSkills } from './skills.ts';
import { addPeople, addResources, addUsage, type Holding } from './supplies.ts';
import { stockOf, type Ground, type Stock } from './ground.ts';
import { finished, type Steps } from './steps.ts';
import { workOf, type Work } from './works.ts';

/** The whole problem as a network, and where to find what in it. */
export interface WholeModel {
  readonly problem: Problem;
  readonly network: Network;
  readonly classes: Classes;
  /** By activity. */
  readonly works: readonly Work[];
  /** By choice and branch, the literal that it is taken. */
  readonly branches: readonly (readonly Condition[])[];
  readonly orders: Orders;
  readonly ranks: RankVariables;
  /**
   * Every crew is in the network, and with it every rule. Otherwise nothing follows from it: some
   * work is shorter than it may be, and a solution may be no plan. Of crews that are counted it is
   * not known whether they are those that were published.
   */
  readonly isManned: boolean;
}

/** A literal for each branch; frozen work decides. */
function branchesOf(problem: Problem, draft: Draft, focus: Focus | null): Condition[][] {
  const never = draft.boolean();
  draft.clause(not(never));
  return problem.choices.map(({ branches }, c) => {
    if (branches.length === 1) return [null];
    const isOpen =
      focus === null ||
      branches.some(({ activities }) => activities.some((a) => focus.freed[a] === 1));
    if (!isOpen) return branches.map((_, b) => (b === focus.plan.branches[c] ? null : never));
    let literals: Exclude<Condition, null>[];
    if (branches.length === 2) {
      const first = draft.boolean();
      literals = [first, not(first)];
    } else {
      literals = branches.map(() => draft.boolean());
      draft.clause(...literals);
      draft.atMostOne(literals);
    }
    branches.forEach(({ activities }, b) => {
      if (activities.some((a) => problem.activities[a].fixed?.kind === 'frozen'))
        draft.clause(literals[b]);
    });
    return literals;
  });
}

/** Stocks last for what is consumed together. */
function addStocks({ problem, draft }: Ground, works: readonly Work[]): void {
  problem.stocks.forEach(({ total }, stock) => {
    const taken = works.map((work) => {
      const { modes } = problem.activities[work.activity];
      const amounts = work.ways.map(({ when, mode }) => ({
        when,
        value: modes[mode].consumes.reduce(
          (sum, one) => sum + (one.stock === stock ? one.amount : 0),
          0,
        ),
      }));
      return draft.worth(amounts, work.present);
    });
    const most = taken.reduce((sum, x) => sum + draft.highest(x), 0);
    if (most <= total) return;
    const terms = taken
      .filter((x) => draft.highest(x) > 0)
      .map((x) => ({ bound: lowerOf(x), fn: shift(0) }));
    draft.sum(terms, draft.variable(total, total));
  });
}

/** By resource, what is held and until when. */
function holdingsOf({ problem, draft }: Ground, works: readonly Work[]): Holding[][] {
  const all: Holding[][] = problem.resources.map(() => []);
  for (const { activity, resource, amount, ends } of problem.holds) {
    if (amount === 0) continue;
    const work = works[activity];
    const until = draft.variable(draft.lowest(work.finish), draft.absent);
    draft.link(work.finish, until, shift(0));
    for (const end of ends) {
      if (end.kind === 'activity') {
        const other = works[end.activity];
        draft.link(other[end.anchor], until, shift(0), other.present);
      } else
        for (const { when, fn } of byMode(work, end.fns))
          draft.link(work.finish, until, opening(problem, fn), when);
    }
    all[resource].push({ work, until, amount });
  }
  return all;
}

/** One at a time, from start to finish: works on one part, acts on one barrier. */
function addSingle(
  { problem, draft }: Ground,
  group: readonly { readonly work: Work; readonly when: Condition }[],
  orders: Orders,
): void {
  if (group.length < 2) return;
  const leastOf = ({ ways }: Work): number => Math.min(...ways.map(({ minutes }) => minutes));
  let settled = true;
  for (const [i, one] of group.entries())
    for (const other of group.slice(i + 1)) {
      const [a, b] = [one.work, other.work].map((work) => ({
        hours: null,
        shifts: null,
        least: leastOf(work),
      }));
      if (!clash(a, b, problem.horizon)) {
        settled = false;
        continue;
      }
      const both = joined(draft, [one.when, other.when]);
      let when: Condition = both.length === 0 ? null : both[0];
      if (both.length === 2) {
        when = draft.boolean();
        draft.implies(both, when);
      }
      orders.exclude(
        { work: one.work, to: one.work.finish, gap: 0 },
        { work: other.work, to: other.work.finish, gap: 0 },
        when,
      );
    }
  if (settled) return;
  addUsage(
    draft,
    [{ from: 0, capacity: 1 }],
    group.map(({ work: { start, finish }, when }) => {
      let times: number | null = null;
      if (when !== null) {
        const one = draft.boolean();
        draft.implies([when], one);
        times = one.b >> 1;
      }
      return { start, finish, tail: 0, amount: 1, times, hours: null };
    }),
  );
}

const movesParts = (problem: Problem): Set<number> =>
  new Set(
    problem.activities.flatMap(({ parts, modes }) =>
      modes.some(({ movesTo }) => movesTo !== null) ? parts : [],
    ),
  );

/**
 * The network of the problem, or of what a neighbourhood leaves open of it. Only the first `ranked`
 * ranks have a variable.
 */
export const wholeOf = (
  problem: Problem,
  focus: Focus | null = null,
  stock: Stock = stockOf(problem),
  ranked = 4,
): WholeModel => finished(wholeInSteps(problem, focus, stock, ranked));

/** The same made in pieces, for whoever has to be interruptible. */
export function* wholeInSteps(
  problem: Problem,
  focus: Focus | null,
  stock: Stock,
  ranked = 4,
): Steps<WholeModel> {
  const draft = new Draft(problem.horizon);
  const classes = classesOf(problem);
  const ground: Ground = { problem, draft, classes, stock, hours: stock.hours, focus };
  const branches = branchesOf(problem, draft, focus);
  const present: Condition[] = problem.activities.map(() => null);
  const owner: Condition[] = problem.lags.map(() => null);
  problem.choices.forEach((choice, c) => {
    choice.branches.forEach(({ activities, lags }, b) => {
      for (const a of activities) present[a] = branches[c][b];
      for (const l of lags) owner[l] = branches[c][b];
    });
  });
  const movable = movesParts(problem);
  const works: Work[] = [];
  for (let a = 0; a < problem.activities.length; a += 1) {
    yield;
    works.push(workOf(ground, a, present[a], movable));
  }
  yield;
  addLags(problem, draft, works, owner);
  yield;
  const orders = ordersOf(problem, draft, works, owner, focus);
  yield;
  addStocks(ground, works);
  problem.parts.forEach((_, part) => {
    const group = works.filter(({ activity }) => problem.activities[activity].parts.includes(part));
    addSingle(
      ground,
      group.map((work) => ({ work, when: null })),
      orders,
    );
  });
  problem.barriers.forEach((_, barrier) => {
    const group = works.flatMap((work) => {
      const { modes } = problem.activities[work.activity];
      const acting = work.ways.filter(({ mode }) => modes[mode].barrier?.barrier === barrier);
      if (acting.length === 0) return [];
      const all = acting.length === work.ways.length;
      return [{ work, when: all ? null : draft.either(acting.map(({ when }) => when)) }];
    });
    addSingle(ground, group, orders);
  });
  yield* addResources(ground, works, holdingsOf(ground, works), orders);
  yield* addSkills(ground, works, orders);
  yield* addPeople(ground, works, orders);
  yield* addLocations(ground, works, orders);
  yield* addAir(ground, works, orders);
  yield* addCliques(ground, works, orders);
  const ranks = yield* ranksOf(ground, works, ranked);
  const network = yield* draft.network();
  const isManned = works.every(({ isRelaxed }) => !isRelaxed);
  return {
    problem,
    network,
    classes,
    works,
    branches,
    orders,
    ranks,
    isManned,
  };
}
