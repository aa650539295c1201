import { intersect, measure } from '#calendar/intervals.ts';
import type { Placement, Plan } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { inCents } from '../compile/frame/money.ts';
import type { SheetMoney } from './sheet.ts';

/** When a placement's crew is at work, clean-down included. */
function worked(problem: Problem, { activity, mode, finish, segments }: Placement) {
  const { cleanDown } = problem.activities[activity].modes[mode];
  if (cleanDown === 0) return [...segments];
  return [...segments, { start: finish, end: finish + cleanDown }];
}

interface Extra {
  readonly minutes: number;
  readonly cost: number;
}

/** Overtime minutes of everybody on it together, and what they cost on top. */
export function overtimeOf(problem: Problem, placement: Placement): Extra {
  if (!placement.overtime) return { minutes: 0, cost: 0 };
  const spans = worked(problem, placement);
  const parts = placement.crew.flatMap(({ builder }) =>
    problem.calendars[problem.builders[builder].calendar].overtime.map((extra) => {
      const minutes = spans.reduce((sum, span) => sum + measure(intersect([span], [extra])), 0);
      return { minutes, cost: minutes * extra.cost };
    }),
  );
  return {
    minutes: parts.reduce((sum, { minutes }) => sum + minutes, 0),
    cost: parts.reduce((sum, { cost }) => sum + cost, 0),
  };
}

/** What the plan's work that is not frozen costs, part by part; `climate` is what heating and the like does. */
export function moneyOf(
  problem: Problem,
  { placements, values }: Plan,
  climate: number,
): SheetMoney {
  let [labour, overtime, prices] = [0, 0, 0];
  const slots = new Map<string, number>();
  for (const placement of placements) {
    const { activity, mode, crew, slot } = placement;
    const { fixed, modes } = problem.activities[activity];
    if (fixed?.kind === 'frozen') continue;
    const minutes = measure(worked(problem, placement));
    for (const { builder } of crew) labour += minutes * problem.builders[builder].cost;
    overtime += overtimeOf(problem, placement).cost;
    prices += modes[mode].cost;
    const list = modes[mode].slots;
    if (slot !== null && list !== null)
      slots.set(`${String(list)}/${String(slot)}`, problem.slotLists[list].slots[slot].cost);
  }
  return {
    labour: inCents(labour),
    overtime: inCents(overtime),
    slots: inCents([...slots.values()].reduce((sum, cost) => sum + cost, 0)),
    prices: inCents(prices),
    climate,
    total: inCents(values[2]),
  };
}
