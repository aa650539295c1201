import type { Placement, Plan } from '../../../model/plan.ts';

/**
 * What a neighbourhood leaves open: the activities that are `freed`, and their order among
 * themselves and towards whatever the plan has within `reach` minutes of them. Everything else
 * keeps the mode, the people and the order that the plan gives it, but not its times; what is done
 * before `settledBy` keeps its times as well.
 */
export interface Focus {
  readonly plan: Plan;
  /** By activity. */
  readonly freed: Uint8Array;
  readonly reach: number;
  /** By activity; null where the plan leaves it out. */
  readonly placed: readonly (Placement | null)[];
  readonly settledBy: number;
}

export function focusOn(plan: Plan, freed: Uint8Array, reach: number): Focus {
  const placed: (Placement | null)[] = Array.from(freed, () => null);
  for (const placement of plan.placements) placed[placement.activity] = placement;
  const first = plan.placements.reduce(
    (least, { activity, start }) => (freed[activity] === 1 ? Math.min(least, start) : least),
    Infinity,
  );
  return { plan, freed, reach, placed, settledBy: first - reach };
}

/** 1: the first is first in the plan and stays so; -1: the second; 0: open. */
export function keptOrder(focus: Focus | null, a: number, b: number): 1 | -1 | 0 {
  if (focus === null) return 0;
  const { placed, freed, reach } = focus;
  const one = placed[a];
  const other = placed[b];
  if (one === null || other === null) return 0;
  if (freed[a] === 1 && freed[b] === 1) return 0;
  if (freed[a] === 1 || freed[b] === 1) {
    const apart = Math.max(one.start - other.finish, other.start - one.finish);
    if (apart <= reach) return 0;
  }
  const difference = one.start - other.start || one.finish - other.finish || a - b;
  return difference < 0 ? 1 : -1;
}
