import { whyNotEarlier as refusal } from '#scheduling/explanation/refusal.ts';
import type { Placement, Plan } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import type { PlanMap } from '../../compile/trace/map.ts';
import type { CauseSite } from './cause.ts';
import { stepOf } from './chain.ts';
import { moments } from '../reading/moments.ts';
import type { ChainStep, When } from '../sheet.ts';

/** What keeps a task where the plan has it, all else as planned. */
export interface WhyNotEarlier {
  readonly task: string;
  /** The start asked about. */
  readonly asked: When;
  /** Every reason, the one that lasts longest first. Empty: nothing holds it there. */
  readonly steps: readonly ChainStep[];
}

export interface WhyNotEarlierInput {
  readonly problem: Problem;
  readonly plan: Plan;
  readonly map: PlanMap;
  readonly task: string;
  /** ISO instant; a minute before the planned start if left out or later than that. */
  readonly at?: string | undefined;
}

/**
 * Why a planned task cannot begin earlier, from what is stored with the plan. Null if the plan
 * does not have the task.
 */
export function whyNotEarlier(input: WhyNotEarlierInput): WhyNotEarlier | null {
  const { problem, plan, map, task } = input;
  const activity = map.tasks.indexOf(task);
  const placed: (Placement | undefined)[] = problem.activities.map(() => undefined);
  for (const placement of plan.placements) placed[placement.activity] = placement;
  if (activity < 0 || placed[activity] === undefined) return null;
  const at = moments(map.origin, map.timeZone);
  const asked =
    input.at === undefined
      ? undefined
      : Math.floor((Date.parse(input.at) - Date.parse(map.origin)) / 60_000);
  const found = refusal(problem, plan, activity, asked);
  const site: CauseSite = { problem, map, placed, cure: () => null };
  return {
    task,
    asked: at.when(found.at),
    steps: found.obstacles.map((obstacle) => stepOf(site, { ...obstacle, to: activity }, at)),
  };
}
