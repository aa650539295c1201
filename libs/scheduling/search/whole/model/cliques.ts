import { unary } from '../../../propagation/unary.ts';
import { spansOf } from '../../crew/compiled/spans.ts';
import { minutesOf, shift, type Monotone } from '../rules/monotone.ts';
import type { Orders } from './orders.ts';
import type { Ground } from './ground.ts';
import type { Steps } from './steps.ts';
import type { Work } from './works.ts';
import { union } from './hours.ts';

const MOST_CLIQUES = 12;

/**
 * Redundant: works no two of which can overlap, for whatever reasons, one after the other. Each
 * clique grows from the longest work that is in none yet, by the longest that fits. O(works^2) a clique.
 */
export function* addCliques(ground: Ground, works: readonly Work[], orders: Orders): Steps<void> {
  const { draft } = ground;
  const least = new Map<Work, number>();
  for (const work of works)
    if (work.present === null && !work.frozen && work.ways.length > 0)
      least.set(work, Math.min(...work.ways.map(({ minutes }) => minutes)));
  const length = (work: Work): number => least.get(work) ?? 0;
  const sorted = [...least.keys()]
    .filter((work) => length(work) > 0)
    .sort((a, b) => length(b) - length(a) || a.activity - b.activity);
  const covered = new Set<Work>();
  for (let k = 0; k < MOST_CLIQUES; k += 1) {
    yield;
    const seed = sorted.find((work) => !covered.has(work));
    if (seed === undefined) return;
    const clique = [seed];
    for (const work of [...sorted.filter((one) => !covered.has(one)), ...sorted])
      if (!clique.includes(work) && clique.every((other) => orders.areApart(work, other)))
        clique.push(work);
    for (const work of clique) covered.add(work);
    if (clique.length < 3 || isOrdered(clique, orders)) continue;
    const uses = clique.map((work) => ({
      start: work.start,
      finish: work.finish,
      after: 0,
      work: length(work),
      when: null,
    }));
    draft.rule(unary({ uses, clock: clockOf(ground, clique) }));
  }

  /** The hours of everybody where all need somebody; else every minute counts. */
  function clockOf(
    { problem: { horizon, builders, calendars, activities } }: Ground,
    clique: readonly Work[],
  ): Monotone {
    const manned = clique.every(({ activity, ways }) =>
      ways.every(({ mode }) => activities[activity].modes[mode].crew.length > 0),
    );
    if (!manned) return shift(0);
    const all = [...new Set(builders.map(({ calendar }) => calendar))].flatMap((c) => [
      ...calendars[c].shifts,
      ...calendars[c].overtime,
    ]);
    return minutesOf(spansOf(union(all, []), horizon));
  }

  function isOrdered(clique: readonly Work[], order: Orders): boolean {
    return clique.every((one, i) =>
      clique
        .slice(i + 1)
        .every((other) => order.precedes(one, other) || order.precedes(other, one)),
    );
  }
}
