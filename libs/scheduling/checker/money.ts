import type { Placement } from '../model/plan.ts';
import type { Calendar, Interval, Problem } from '../model/problem.ts';
import { taken, workOf, type Work } from './reading.ts';
import { clip, length } from './spans.ts';

/** What a builder's overtime within some spans costs beyond the builder's own minutes. */
const extra = ({ overtime }: Calendar, spans: readonly Interval[]): number =>
  overtime.reduce((sum, { start, end, cost }) => sum + cost * length(clip(spans, start, end)), 0);

function people(problem: Problem, work: Work): number {
  const spans = taken(work);
  return work.placement.crew.reduce((sum, { builder }) => {
    const { cost, calendar } = problem.builders[builder];
    return sum + cost * length(spans) + extra(problem.calendars[calendar], spans);
  }, 0);
}

/** Modes, people, overtime and each slot once, of all work that is not frozen. */
export function money(problem: Problem, placements: readonly Placement[]): number {
  const booked = new Map<string, number>();
  let sum = 0;
  for (const placement of placements) {
    const work = workOf(problem, placement);
    if (!work || work.frozen) continue;
    const { mode } = work;
    sum += mode.cost + people(problem, work);
    if (mode.slots === null || placement.slot === null) continue;
    const price = problem.slotLists[mode.slots].slots[placement.slot]?.cost ?? 0;
    booked.set(`${mode.slots} ${placement.slot}`, price);
  }
  return [...booked.values()].reduce((all, price) => all + price, sum);
}
