import type { Compiled } from '#planning/compile/compile.ts';
import type { PlanMap } from '#planning/compile/trace/map.ts';
import { ranks } from '#scheduling/checker/values.ts';
import type { Placement, Plan } from '#scheduling/model/plan.ts';

const placeById = (ids: readonly string[]): ReadonlyMap<string, number> =>
  new Map(ids.map((id, index) => [id, index]));

/** The branch taken of each choice, -1 where the plan knows of none. */
function branchesIn({ problem }: Compiled, from: PlanMap, plan: Plan): number[] {
  const taken = new Map(
    from.choices.map(({ id, branches }, c) => [id, branches[plan.branches[c]]]),
  );
  return problem.choices.map(({ id, branches }) =>
    branches.findIndex((one) => one.id === taken.get(id)),
  );
}

/**
 * A plan of one problem in another of the same yard, by ids: as far as both have the work, with the same
 * people at the same times. For a search to start from, which finds out what of it holds there.
 */
export function carried(plan: Plan, { map: from }: Compiled, to: Compiled): Plan {
  const { problem, map } = to;
  const activities = placeById(map.tasks);
  const people = placeById(map.people);
  const placements = plan.placements
    .flatMap((placement): Placement[] => {
      const activity = activities.get(from.tasks[placement.activity]);
      if (activity === undefined || placement.mode >= problem.activities[activity].modes.length)
        return [];
      const crew = placement.crew.flatMap(({ builder, demand }) => {
        const there = people.get(from.people[builder]);
        return there === undefined ? [] : [{ builder: there, demand }];
      });
      return crew.length < placement.crew.length ? [] : [{ ...placement, activity, crew }];
    })
    .sort((a, b) => a.activity - b.activity);
  const finishes = problem.refits.map(() => 0);
  for (const { activity, finish } of placements) {
    const { refit } = problem.activities[activity];
    if (refit !== null) finishes[refit] = Math.max(finishes[refit], finish);
  }
  const values = ranks(problem, placements, finishes);
  return { placements, branches: branchesIn(to, from, plan), finishes, values };
}
