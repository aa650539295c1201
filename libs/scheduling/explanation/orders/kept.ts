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
