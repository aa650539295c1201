import { openUntil } from '../search/crew/inverse.ts';
import type { Located, LocatedPlan } from './located.ts';

/** From when to when an activity may not be met by dust; null where dust does not matter to it. */
export function exposureOf(
  { problem }: LocatedPlan,
  { mode, activity, placement }: Located,
): { start: number; end: number } | null {
  if (!mode.sensitive) return null;
  const end = openUntil(problem, activity.surfaces, placement.finish);
  return end > placement.start ? { start: placement.start, end } : null;
}

/** Whether dust made by `dusty` reaches the space that `open` is in. */
export const reaches = ({ problem }: LocatedPlan, dusty: Located, open: Located): boolean =>
  dusty.mode.dusty &&
  open.mode.sensitive &&
  problem.spaces[dusty.mode.space].dustReaches.includes(open.mode.space);

export const settlingOf = ({ problem }: LocatedPlan, dusty: Located): number =>
  problem.spaces[dusty.mode.space].settling;
