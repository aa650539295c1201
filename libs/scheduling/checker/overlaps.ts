import type { Work } from './reading.ts';

/**
 * Pairs of work, of a list in any order, of which the second starts before the first has
 * finished; work of no minutes occupies nothing.
 */
export function overlaps(list: readonly Work[]): [Work, Work][] {
  const found: [Work, Work][] = [];
  const sorted = list
    .filter(({ placement }) => placement.start < placement.finish)
    .sort((a, b) => a.placement.start - b.placement.start);
  let latest: Work | null = null;
  for (const work of sorted) {
    if (latest && work.placement.start < latest.placement.finish) found.push([latest, work]);
    if (!latest || work.placement.finish > latest.placement.finish) latest = work;
  }
  return found;
}
