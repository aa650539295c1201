import { anchorOpenBy } from '../search/crew/inverse.ts';
import { exposureOf, reaches, settlingOf } from './exposure.ts';
import type { Located, LocatedPlan } from './located.ts';

/** `before` must have finished, in the sense of `latest`, when `after` starts. */
export interface KeptOrder {
  readonly before: number;
  readonly after: number;
  /** The latest finish of `before` for a start of `after`. */
  readonly latest: (start: number) => number;
}

/** What a plan's order says: pairs to keep, and activities that may not move at all. */
export interface KeptOrders {
  readonly pairs: readonly KeptOrder[];
  /** Woven into another's pauses: moving would need an order finer than whole activities. */
  readonly woven: ReadonlySet<number>;
}

const same = (start: number): number => start;

const overlap = (a: Located, b: Located): boolean =>
  a.placement.start < b.placement.finish && b.placement.start < a.placement.finish;

const shareBuilder = (a: Located, b: Located): boolean =>
  a.placement.crew.some((x) => b.placement.crew.some((y) => x.builder === y.builder));

const shareResource = (a: Located, b: Located): boolean =>
  a.mode.uses.some((x) => b.mode.uses.some((y) => x.resource === y.resource));

const amountOf = (one: Located, resource: number): number =>
  one.mode.uses.reduce((sum, use) => (use.resource === resource ? sum + use.amount : sum), 0);

/**
 * Those that a resource could not hold together, were it not for the pauses of `one`, in which it
 * lets go of the resource: `one` and all that overlap it. Empty if they fit even without pauses.
 */
function throughPauses(
  { problem }: LocatedPlan,
  one: Located,
  placed: readonly Located[],
): Located[] {
  if (one.placement.segments.length < 2) return [];
  return one.mode.uses.flatMap((use) => {
    if (use.whole) return [];
    const { steps } = problem.resources[use.resource];
    const least = steps.reduce((least, step) => Math.min(least, step.capacity), Infinity);
    const others = placed.filter(
      (y) => y !== one && overlap(one, y) && amountOf(y, use.resource) > 0,
    );
    const sum = others.reduce(
      (total, y) => total + amountOf(y, use.resource),
      amountOf(one, use.resource),
    );
    return sum > least ? [one, ...others] : [];
  });
}

/**
 * The order in which the plan has builders, resources and air used. Two activities that share a
 * builder or a resource keep their order if one ends before the other starts. For a resource of
 * constant capacity that is enough: activities that overlap pairwise in the plan overlap at one
 * moment (intervals have the Helly property), where they fitted. Dust keeps its order to what
 * it would have harmed, with its settling and the surface's closing counted in.
 */
export function keptOrders(located: LocatedPlan): KeptOrders {
  const placed = located.at.filter((one) => one !== undefined);
  const pairs: KeptOrder[] = [];
  const woven = new Set<number>();
  const id = (one: Located): number => one.placement.activity;
  const order = (x: Located, y: Located): void => {
    const [first, second] = x.placement.finish <= y.placement.start ? [x, y] : [y, x];
    if (first.placement.finish > second.placement.start) {
      woven.add(id(x)).add(id(y));
      return;
    }
    pairs.push({ before: id(first), after: id(second), latest: same });
  };
  placed.forEach((x, i) => {
    for (const y of placed.slice(i + 1)) {
      if (x.placement.start === x.placement.finish || y.placement.start === y.placement.finish)
        continue;
      if (shareBuilder(x, y)) order(x, y);
      else if (shareResource(x, y) && !overlap(x, y)) order(x, y);
    }
    for (const held of throughPauses(located, x, placed)) woven.add(id(held));
  });
  for (const dusty of placed)
    for (const open of placed) {
      if (dusty === open || !reaches(located, dusty, open)) continue;
      if (dusty.placement.start === dusty.placement.finish) continue;
      airOrder(located, dusty, open, pairs, woven);
    }
  return { pairs, woven };
}

function airOrder(
  located: LocatedPlan,
  dusty: Located,
  open: Located,
  pairs: KeptOrder[],
  woven: Set<number>,
): void {
  const exposure = exposureOf(located, open);
  if (!exposure) return;
  const settling = settlingOf(located, dusty);
  const d = dusty.placement.activity;
  const o = open.placement.activity;
  if (dusty.placement.finish + settling <= exposure.start)
    pairs.push({ before: d, after: o, latest: (start) => start - settling });
  else if (exposure.end <= dusty.placement.start) {
    const { surfaces } = open.activity;
    const latest = (start: number): number =>
      surfaces.reduce(
        (least, fn) => Math.min(least, anchorOpenBy(located.problem, { open: true, fn }, start)),
        start,
      );
    pairs.push({ before: o, after: d, latest });
  } else woven.add(d).add(o);
}
