import { promise } from '../bounds/promise.ts';
import type { Placement, Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { locate, shapeAt, taken, type Located, type LocatedPlan, type Shape } from './located.ts';
import { keepScene } from './obstacles/air.ts';
import { obstaclesAt } from './obstacles/at.ts';

/** Rounds through all activities; each may free a minute for another. */
const ROUNDS = 8;

/** Money for the overtime of its people. */
function overtimePay(problem: Problem, one: Located): number {
  if (!one.placement.overtime) return 0;
  const own = taken(one);
  return one.placement.crew.reduce((sum, { builder }) => {
    const { overtime } = problem.calendars[problem.builders[builder].calendar];
    return overtime.reduce(
      (pay, span) =>
        own.reduce(
          (more, { start, end }) =>
            more + span.cost * Math.max(0, Math.min(end, span.end) - Math.max(start, span.start)),
          pay,
        ),
      sum,
    );
  }, 0);
}

/**
 * An earlier start that nothing refuses and whose next earlier minute something does; the planned
 * one where that is so already. Steps double while they succeed and halve while they do not.
 */
function justified(located: LocatedPlan, one: Located): number {
  const pay = overtimePay(located.problem, one);
  const allowed = (start: number): boolean =>
    obstaclesAt(located, one, start).length === 0 &&
    overtimePay(located.problem, { ...one, shape: shapeAt(one, start) }) <= pay;
  let { start } = one.placement;
  for (let step = 1; step > 0;) {
    if (start - step >= 0 && allowed(start - step)) {
      start -= step;
      step *= 2;
    } else step = Math.floor(step / 2);
  }
  return start;
}

const placed = (placement: Placement, { start, end, segments }: Shape): Placement => ({
  ...placement,
  start,
  finish: end,
  segments,
});

/**
 * The plan with each activity moved to the left until something refuses it one minute more, order
 * by order of start, so that every wait in it has a reason. Mode, crew, overtime and slot stay,
 * money and disturbance are as they were (whatever is published does not move), and no refit
 * finishes later.
 */
export function justify(problem: Problem, plan: Plan): Plan {
  const published = new Set(problem.published?.tasks.map(({ activity }) => activity));
  const placements = [...plan.placements];
  const index = new Map(placements.map(({ activity }, i) => [activity, i]));
  let located = locate(problem, plan);
  let saved = 0;
  for (let round = 0, moved = true; moved && round < ROUNDS; round += 1) {
    moved = false;
    const order = placements
      .map(({ activity }) => activity)
      .sort((a, b) => startOf(located, a) - startOf(located, b) || a - b);
    for (const a of order) {
      const one = located.at[a];
      if (!one || one.frozen || published.has(a)) continue;
      const start = justified(located, one);
      if (start === one.placement.start) continue;
      moved = true;
      const shape = shapeAt(one, start);
      const placement = placed(one.placement, shape);
      saved += overtimePay(problem, one) - overtimePay(problem, { ...one, shape });
      placements[index.get(a) ?? -1] = placement;
      const at = located.at.slice();
      at[a] = { ...one, placement, shape };
      const next = { ...located, at };
      keepScene(located, next, a);
      located = next;
    }
  }
  return valued(problem, plan, placements, saved);
}

const startOf = ({ at }: LocatedPlan, a: number): number => at[a]?.placement.start ?? 0;

function valued(
  problem: Problem,
  plan: Plan,
  placements: readonly Placement[],
  saved: number,
): Plan {
  const finishes = problem.refits.map((_, r) =>
    placements.reduce(
      (latest, { activity, finish }) =>
        problem.activities[activity].refit === r ? Math.max(latest, finish) : latest,
      0,
    ),
  );
  const late = finishes.reduce((sum, finish, r) => sum + promise(problem, r, finish), 0);
  const ends = finishes.reduce((sum, finish, r) => sum + problem.refits[r].weight * finish, 0);
  return {
    ...plan,
    placements,
    finishes,
    values: [late, ends, plan.values[2] - saved, plan.values[3]],
  };
}
