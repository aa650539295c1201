import type { Problem } from '../model/problem.ts';
import { speedFor } from '../search/crew/compiled/crews.ts';
import type { Analysis } from './critical-path.ts';
import { isCertain } from './domains.ts';

/** The least pay of a mode's crew, clean-down included, in regular hours. */
function leastPay({ root }: Analysis, a: number, m: number): number {
  const { problem, compiled } = root;
  const mode = problem.activities[a].modes[m];
  const { crews, complete, least } = compiled.activities[a].modes[m];
  if (crews === null) return 0;
  const minuteCost = (builders: readonly number[]): number =>
    builders.reduce((sum, b) => sum + problem.builders[b].cost, 0);
  if (complete)
    return crews.reduce(
      (cheapest, { builders, minutes }) =>
        Math.min(cheapest, minuteCost(builders) * (minutes + mode.cleanDown)),
      Infinity,
    );
  return mode.crew.reduce((sum, demand) => {
    const costs = problem.builders.flatMap(({ cost }, b) =>
      speedFor(problem, b, demand) > 0 ? [cost] : [],
    );
    return sum + demand.count * Math.min(...costs) * (least + mode.cleanDown);
  }, 0);
}

/** The cheapest way to do an activity, slots apart; 0 for what is frozen, or cannot be done at all. */
function leastOf(analysis: Analysis, a: number): number {
  const { problem, modes: possible } = analysis.root;
  const { fixed, modes } = problem.activities[a];
  if (fixed?.kind === 'frozen' || possible[a].length === 0) return 0;
  return possible[a].reduce(
    (least, m) => Math.min(least, modes[m].cost + leastPay(analysis, a, m)),
    Infinity,
  );
}

/** Slot lists that every plan uses: some activity that is certain has no way without. */
function slotsNeeded({ root, assumed }: Analysis): Set<number> {
  const { problem, modes: possible } = root;
  const needed = new Set<number>();
  problem.activities.forEach(({ fixed, modes }, a) => {
    if (fixed?.kind === 'frozen' || !isCertain(root, assumed, a)) return;
    const lists = new Set(possible[a].map((m) => modes[m].slots));
    const [only] = lists;
    if (lists.size === 1 && only !== null) needed.add(only);
  });
  return needed;
}

const cheapest = ({ slotLists, now }: Problem, list: number): number =>
  slotLists[list].slots.reduce(
    (least, { cost, bookBy }) => (bookBy >= now ? Math.min(least, cost) : least),
    Infinity,
  );

/**
 * A lower bound of rank 3: for each activity that is certain the cheapest mode and crew without
 * overtime, for each open choice the cheapest of its possible branches, and once the cheapest slot
 * of each list that cannot be done without.
 */
export function leastCost(analysis: Analysis): number {
  const { root, assumed } = analysis;
  const { problem } = root;
  const costs = problem.activities.map((_, a) => leastOf(analysis, a));
  let total = 0;
  costs.forEach((cost, a) => {
    if (isCertain(root, assumed, a)) total += cost;
  });
  problem.choices.forEach(({ branches }, c) => {
    if (assumed.taken[c] >= 0) return;
    const possible = branches.filter((_, b) => assumed.possible[c][b] === 1);
    total += possible.reduce(
      (least, branch) =>
        Math.min(
          least,
          branch.activities.reduce((sum, a) => sum + costs[a], 0),
        ),
      Infinity,
    );
  });
  for (const list of slotsNeeded(analysis)) total += cheapest(problem, list);
  return total;
}
