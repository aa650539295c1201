import { shortening, type Lever, type Replan } from '#scheduling/explanation/shortening.ts';
import type { Easing } from '#scheduling/explanation/easing.ts';
import type { Placement, Plan } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { rowOf, type PlanMap, type Row } from '../../compile/trace/map.ts';
import { causeOf, type CauseSite, taskName } from './cause.ts';
import { easing, gains } from './easing.ts';
import { ends } from './ends.ts';

/** One thing that holds a plan up, and what was found to be gained without it. */
export interface Shortening {
  /** The row of the yard that it comes from. */
  readonly row: Row;
  readonly easing: Easing;
  /** Of the refits that finish at another time; minutes below 0 are later. */
  readonly refits: readonly { readonly refit: string; readonly earlierMinutes: number }[];
  readonly text: string;
}

export interface WhatShortensInput {
  readonly problem: Problem;
  readonly plan: Plan;
  readonly map: PlanMap;
  /** The refit asked about; null: all of them. */
  readonly refit: string | null;
  readonly replan: Replan;
}

function told(site: CauseSite, { constraint, easing: how, earlier }: Lever): Shortening {
  const { problem, map } = site;
  const { from, to } = ends(problem, constraint);
  const cause = causeOf(site, { from, to, reason: constraint, until: null });
  const names = { to: taskName(map, to), from: from === null ? null : taskName(map, from) };
  const refits = map.refits.flatMap((refit, r) =>
    earlier[r] === 0 ? [] : [{ refit, earlierMinutes: earlier[r] }],
  );
  const gained = refits
    .toSorted((a, b) => b.earlierMinutes - a.earlierMinutes)
    .map(({ refit, earlierMinutes }) => gains(map.rows[`refit:${refit}`].name, earlierMinutes));
  return {
    row: rowOf(map, problem, constraint),
    easing: how,
    refits,
    text: `${easing(cause, names)}: ${gained.join('; ')}.`,
  };
}

/**
 * What would shorten a plan most, from what is stored with it, the largest gain first. Null if the
 * problem has no such refit.
 */
export function whatShortens(input: WhatShortensInput): Shortening[] | null {
  const { problem, plan, map, replan } = input;
  const refit = input.refit === null ? null : map.refits.indexOf(input.refit);
  if (refit === -1) return null;
  const placed: (Placement | undefined)[] = problem.activities.map(() => undefined);
  for (const placement of plan.placements) placed[placement.activity] = placement;
  const site: CauseSite = { problem, map, placed, cure: () => null };
  return shortening(problem, plan, replan, refit).map((lever) => told(site, lever));
}
