import { latestOpened } from '../../model/lag-inverse.ts';
import { functionFor } from '../../model/lag.ts';
import type { Hold } from '../../model/problem.ts';
import { those, type Located, type LocatedPlan } from '../located.ts';
import { heldFor } from '../obstacles/supplies.ts';
import { inOrderAll, same, type KeptOrders, type Stretch } from './kept.ts';
import { film, whole } from './people.ts';

interface Use extends Stretch {
  readonly amount: number;
  /** Lets go of the resource in the pauses of the work. */
  readonly lets: boolean;
}

function ofDemands(one: Located, resource: number): Use[] {
  const { shape, mode } = one;
  return mode.demands
    .filter((demand) => demand.resource === resource && demand.amount > 0)
    .filter(() => shape.start < shape.freed)
    .map(({ amount, keptWhilePaused }) => ({
      ...whole(one),
      amount,
      lets: !keptWhilePaused && shape.segments.length > 1,
    }));
}

function ofHold(located: LocatedPlan, hold: Hold): Use[] {
  const { problem, at } = located;
  const holder = at[hold.activity];
  const span = heldFor(located, hold);
  if (!holder || !span || hold.amount === 0) return [];
  const ends = hold.ends.flatMap((end): Stretch['ends'][number][] => {
    if (end.kind === 'activity')
      return at[end.activity] ? [{ before: end.activity, anchor: end.anchor, latest: same }] : [];
    const fn = functionFor(end.fns, holder.placement.mode);
    const latest = (start: number): number => latestOpened(problem, fn, start);
    return [{ before: hold.activity, anchor: 'finish', latest }];
  });
  const own = film(holder);
  return [{ ...own, ...span, ends: [...own.ends, ...ends], amount: hold.amount, lets: false }];
}

/**
 * Uses of a resource keep their order where they do not overlap. For a constant capacity that is
 * enough: uses that overlap pairwise in the plan overlap at one moment (intervals have the Helly
 * property), where they fitted. Those that fitted only through somebody's pauses stay, and
 * where capacity changes, so do holds.
 */
export function keepSupplies(located: LocatedPlan, kept: KeptOrders): void {
  const { problem, sharing } = located;
  problem.resources.forEach(({ steps }, resource) => {
    const uses = [
      ...those(located, sharing.resources[resource]).flatMap((one) => ofDemands(one, resource)),
      ...sharing.holds[resource].flatMap((h) => ofHold(located, problem.holds[h])),
    ];
    const least = steps.reduce((min, { capacity }) => Math.min(min, capacity), Infinity);
    inOrderAll(kept, uses, () => undefined);
    for (const x of uses) {
      if (!x.lets) continue;
      const together = uses.filter((y) => x.start < y.end && y.start < x.end);
      if (together.reduce((sum, { amount }) => sum + amount, 0) > least)
        for (const { owner } of together) kept.woven.add(owner);
    }
    if (steps.every(({ capacity }) => capacity === steps[0].capacity)) return;
    for (const h of sharing.holds[resource])
      for (const { ends } of ofHold(located, problem.holds[h]))
        for (const { before } of ends) kept.woven.add(before);
  });
}

/**
 * The latest end for which capacity is sure to last. Work that overlaps in the plan fitted at one
 * moment, so wherever capacity is no less than the most that the work's own span saw, it fits
 * again; where the span itself saw less than that, the work stays.
 */
export function latestByCapacity({ problem }: LocatedPlan, { mode, shape }: Located): number {
  let latest = Infinity;
  for (const { resource, amount } of mode.demands) {
    if (amount === 0) continue;
    const { steps } = problem.resources[resource];
    const until = (i: number): number => (i + 1 < steps.length ? steps[i + 1].from : Infinity);
    const most = steps.reduce(
      (max, step, i) =>
        step.from < shape.freed && until(i) > shape.start ? Math.max(max, step.capacity) : max,
      0,
    );
    const shortage = steps.find((step, i) => until(i) > shape.start && step.capacity < most);
    if (shortage) latest = Math.min(latest, Math.max(shape.freed, shortage.from));
  }
  return latest - (shape.freed - shape.end);
}
