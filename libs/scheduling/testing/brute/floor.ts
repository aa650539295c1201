import type { Work } from '../../checker/reading.ts';
import type { RankValues } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { worth } from '../worth.ts';

/** What one option adds to the ranks that add up, slots apart. */
export interface Adds {
  readonly money: number;
  readonly disturbance: number;
}

/** What a placement adds by itself: against a plan without it. */
export function addsOf(problem: Problem, work: Work): Adds {
  const { published } = problem;
  const own = published?.tasks.filter(({ activity }) => activity === work.placement.activity) ?? [];
  const alone: Problem = {
    ...problem,
    slotLists: problem.slotLists.map((list) => ({
      ...list,
      slots: list.slots.map((slot) => ({ ...slot, cost: 0 })),
    })),
    published: published && { ...published, tasks: own },
  };
  const { values } = worth(alone, [work.placement]);
  return { money: values[2], disturbance: values[3] };
}

/**
 * Least values of the ranks that a plan can have with what is placed and, for each activity that is
 * not, no less than the least of its options: its earliest finish, its least money and disturbance.
 */
export function floorOf(
  problem: Problem,
  absent: number,
  placed: readonly (Work & { readonly adds: Adds })[],
  left: readonly {
    readonly refit: number | null;
    readonly finish: number;
    readonly adds: Adds;
  }[],
): RankValues {
  const finishes = problem.refits.map(() => 0);
  const raise = (refit: number | null, finish: number): void => {
    if (refit !== null) finishes[refit] = Math.max(finishes[refit], finish);
  };
  for (const { activity, placement } of placed) raise(activity.refit, placement.finish);
  for (const { refit, finish } of left) raise(refit, finish);
  let late = 0;
  let done = 0;
  problem.refits.forEach(({ due, handovers, weight }, r) => {
    const finish = finishes[r];
    const next = handovers.find((moment) => moment >= finish) ?? problem.horizon;
    const handover = handovers.length === 0 ? finish : next;
    if (due !== null) late += weight * Math.max(0, handover - due);
    done += weight * finish;
  });
  let money = 0;
  let disturbance = absent;
  for (const { adds } of [...placed, ...left]) {
    money += adds.money;
    disturbance += adds.disturbance;
  }
  const booked = new Set<string>();
  for (const { placement, mode } of placed) {
    if (mode.slots === null || placement.slot === null) continue;
    const key = `${mode.slots} ${placement.slot}`;
    if (booked.has(key)) continue;
    booked.add(key);
    money += problem.slotLists[mode.slots].slots[placement.slot].cost;
  }
  return [late, done, money, disturbance];
}
