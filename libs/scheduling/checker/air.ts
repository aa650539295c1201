import type { Interval, Space } from '../model/problem.ts';
import { closedSpans } from './barriers.ts';
import { exposures } from './exposures.ts';
import type { Reading } from './reading.ts';
import { meets, merged, minus } from './spans.ts';
import type { Violation } from './violation.ts';

/** When dust of a space is in each space that it reaches, through any door that is not closed. */
function reached(
  closed: readonly (readonly Interval[])[],
  { dustReaches }: Space,
  dust: readonly Interval[],
): Map<number, Interval[]> {
  const bySpace = new Map<number, Interval[]>();
  for (const { space, barrier } of dustReaches) {
    const through = barrier === null ? dust : minus(dust, closed[barrier]);
    bySpace.set(space, [...(bySpace.get(space) ?? []), ...through]);
  }
  return bySpace;
}

/** Dust, while it is made and until it has settled, against everything open that it reaches. */
export function air(reading: Reading): Violation[] {
  const { spaces, barriers } = reading.problem;
  const found: Violation[] = [];
  const open = exposures(reading);
  const closed = barriers.map((_, barrier) => closedSpans(reading, barrier));
  for (const { placement, activity, mode } of reading.work) {
    if (mode.air !== 'dusty' || mode.space === null) continue;
    const from = mode.space;
    const { settling } = spaces[from];
    const dust = merged(
      placement.segments.map(({ start, end }) => ({ start, end: end + settling })),
    );
    for (const [to, spans] of reached(closed, spaces[from], dust))
      for (const exposure of open) {
        const met = spans.find((span) => exposure.space === to && meets(span, exposure));
        if (!met) continue;
        found.push({
          kind: 'dust',
          activities: [placement.activity, exposure.activity],
          constraint: { kind: 'dust', from, to },
          message: `dust of ${activity.id}, ${met.start}-${met.end} with settling, reaches the ${exposure.what}, ${exposure.start}-${exposure.end}, in ${spaces[to].id}`,
        });
      }
  }
  return found;
}
