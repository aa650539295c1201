import type { Anchor } from '../../model/problem.ts';
import type { Located, LocatedPlan } from '../located.ts';

/** An anchor of `before` may not be later than `latest` of the start of `after`. */
export interface KeptOrder {
  readonly before: number;
  readonly anchor: Anchor;
  readonly after: number;
  readonly latest: (start: number) => number;
}

/** What a plan's order says: pairs to keep, and activities that may not move at all. */
export interface KeptOrders {
  readonly pairs: KeptOrder[];
  /** Woven into another's pauses, holds or air: moving would need an order finer than whole activities. */
  readonly woven: Set<number>;
}

export const same = (start: number): number => start;

export const placedOf = ({ at }: LocatedPlan): Located[] => at.filter((one) => one !== undefined);

export const idOf = ({ placement }: Located): number => placement.activity;

/** A span whose end moves with the anchors of activities. */
export interface Stretch {
  readonly owner: number;
  readonly start: number;
  readonly end: number;
  /** The end is the latest of these: the anchor of `activity` at `latest` of it. */
  readonly ends: readonly Pick<KeptOrder, 'before' | 'anchor' | 'latest'>[];
}

/** Keeps `first` over before `second` begins. */
function keep(kept: KeptOrders, first: Stretch, second: Stretch): void {
  for (const end of first.ends)
    if (end.before !== second.owner) kept.pairs.push({ ...end, after: second.owner });
}

/** Keeps the order of two stretches; false where they overlap. */
export function inOrder(kept: KeptOrders, x: Stretch, y: Stretch): boolean {
  if (x.end <= y.start) keep(kept, x, y);
  else if (y.end <= x.start) keep(kept, y, x);
  else return false;
  return true;
}

/** Of uses that end before another begins, so many that begin last are tried as steps in between. */
const STEPS = 4;

/** A stretch whose end is its owner's finish, or a bit after. */
const plain = ({ owner, ends }: Stretch): boolean => ends.length === 1 && ends[0].before === owner;

/**
 * Keeps the order of all stretches that do not overlap; calls `clash` for those that do. A pair
 * with a third stretch between its two, kept to both, follows from those orders and is left out:
 * among n in a row there are n - 1 pairs then, and not n squared.
 */
export function inOrderAll(
  kept: KeptOrders,
  stretches: readonly Stretch[],
  clash: (x: Stretch, y: Stretch) => void,
): void {
  const byStart = stretches.toSorted((x, y) => x.start - y.start || x.end - y.end);
  byStart.forEach((z, i) => {
    const steps: Stretch[] = [];
    for (let k = i - 1; k >= 0 && steps.length < STEPS; k -= 1) {
      const y = byStart[k];
      if (y.end <= z.start && y.start < y.end && y.owner !== z.owner && plain(y)) steps.push(y);
    }
    const between = (x: Stretch): boolean =>
      steps.some(
        (y) =>
          x.end <= y.start &&
          x.owner !== y.owner &&
          x.ends.every(({ before }) => before !== y.owner && before !== z.owner),
      );
    for (let k = 0; k < i; k += 1) {
      const x = byStart[k];
      if (x.owner === z.owner) continue;
      if (x.end <= z.start && between(x)) continue;
      if (!inOrder(kept, x, z)) clash(x, z);
    }
  });
}
