import { promise } from '../../bounds/promise.ts';
import type { Placement, RankValues } from '../../model/plan.ts';
import type { Interval, Problem } from '../../model/problem.ts';

/** Finish of each refit. */
export function finishesOf(problem: Problem, placements: readonly Placement[]): number[] {
  const finishes = problem.refits.map(() => 0);
  for (const { activity, finish } of placements) {
    const { refit } = problem.activities[activity];
    if (refit !== null) finishes[refit] = Math.max(finishes[refit], finish);
  }
  return finishes;
}

/** Spans in which crew and demands are taken: the work and its clean-down. */
function takenBy({ segments, finish }: Placement, cleanDown: number): Interval[] {
  if (cleanDown === 0) return [...segments];
  const last = segments.at(-1);
  if (last === undefined) return [{ start: finish, end: finish + cleanDown }];
  return [...segments.slice(0, -1), { start: last.start, end: finish + cleanDown }];
}

function moneyOf(problem: Problem, placements: readonly Placement[]): number {
  const booked = new Map<string, number>();
  let sum = 0;
  for (const placement of placements) {
    const { activity, mode: m, crew, overtime, slot } = placement;
    if (problem.activities[activity].fixed?.kind === 'frozen') continue;
    const mode = problem.activities[activity].modes[m];
    sum += mode.cost;
    const spans = takenBy(placement, mode.cleanDown);
    for (const { builder } of crew) {
      const { cost, calendar } = problem.builders[builder];
      for (const { start, end } of spans) {
        sum += cost * (end - start);
        if (!overtime) continue;
        for (const one of problem.calendars[calendar].overtime)
          sum += one.cost * Math.max(0, Math.min(end, one.end) - Math.max(start, one.start));
      }
    }
    if (mode.slots !== null && slot !== null)
      booked.set(
        `${String(mode.slots)}/${String(slot)}`,
        problem.slotLists[mode.slots].slots[slot].cost,
      );
  }
  return [...booked.values()].reduce((all, cost) => all + cost, sum);
}

function disturbanceOf({ published }: Problem, placements: readonly Placement[]): number {
  if (published === null) return 0;
  const at = new Map(placements.map((placement) => [placement.activity, placement]));
  return published.tasks.reduce((sum, { activity, start, builders, weight }) => {
    const own = at.get(activity);
    if (own === undefined) return sum + weight;
    const people = own.crew.map(({ builder }) => builder);
    const same =
      people.every((one) => builders.includes(one)) &&
      builders.every((one) => people.includes(one));
    const moved = Math.abs(own.start - start) > published.tolerance;
    return sum + weight * (Number(moved) + Number(!same));
  }, 0);
}

/** What a plan with these placements is worth. */
export function valuesOf(problem: Problem, placements: readonly Placement[]): RankValues {
  const finishes = finishesOf(problem, placements);
  return [
    finishes.reduce((sum, finish, r) => sum + promise(problem, r, finish), 0),
    finishes.reduce((sum, finish, r) => sum + problem.refits[r].weight * finish, 0),
    moneyOf(problem, placements),
    disturbanceOf(problem, placements),
  ];
}
