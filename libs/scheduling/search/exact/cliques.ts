import type { Supply, Use } from '../../propagation/timetable.ts';

/**
 * Unary resources: sets of activities of which no two can overlap, one grown from each activity
 * that is in none yet, the longest first. Only those with at least `least` of work, and of them
 * the `most` with the most. What they say follows from the pairs, but energy sees it at once: a
 * ProGen/max file open in 100,000 conflicts (psp153 of j30) took 4 with them. O(activities^3).
 *
 * Follows the clique bound of P. Brucker, S. Knust, A. Schoo, O. Thiele, "A branch and bound
 * algorithm for the resource-constrained project scheduling problem", EJOR 107 (1998) 272-288.
 */
export function cliques(
  duration: Int32Array,
  exclude: (i: number, k: number) => boolean,
  least: number,
  most: number,
): readonly Supply[] {
  const order = Array.from(duration, (_, i) => i)
    .filter((i) => duration[i] > 0)
    .sort((a, b) => duration[b] - duration[a] || a - b);
  const covered = new Set<number>();
  const found: { supply: Supply; work: number }[] = [];
  for (const seed of order) {
    if (covered.has(seed)) continue;
    const clique = [seed];
    for (const i of order) {
      if (i !== seed && clique.every((k) => exclude(i, k))) clique.push(i);
    }
    for (const i of clique) covered.add(i);
    const work = clique.reduce((sum, i) => sum + duration[i], 0);
    if (work < least || clique.length < 3) continue;
    const uses = clique.map((x): Use => ({ x, duration: duration[x], amount: 1 }));
    found.push({ supply: { capacity: 1, uses }, work });
  }
  return found
    .sort((a, b) => b.work - a.work)
    .slice(0, most)
    .map(({ supply }) => supply);
}
