import type { Yard } from '../yard.ts';
import { byId, known, uniqueIds, type Report } from './faults.ts';
import { spanFault } from './spans.ts';

/** Ids and spans of slots; ids of deliveries and stocks. */
export function outsideFaults(to: Report, yard: Yard): void {
  for (const [what, list, rows] of [
    ['slot list', 'slotLists', yard.slotLists],
    ['delivery', 'deliveries', yard.deliveries],
    ['stock', 'stocks', yard.stocks],
    ['barrier', 'barriers', yard.barriers],
  ] as const)
    uniqueIds(
      to,
      what,
      rows.map((row, k) => ({ row, path: [list, k] })),
    );
  yard.slotLists.forEach(({ name, slots }, l) => {
    slots.forEach((slot, s) => {
      spanFault(to, name, slot, ['slotLists', l, 'slots', s]);
    });
  });
}

/** Barriers: what they bar has to be a way of dust, and of one barrier only. */
export function barrierFaults(to: Report, yard: Yard): void {
  const spaces = byId(yard.spaces);
  const taken = new Map<string, string>();
  yard.barriers.forEach(({ id, name, blocks }, b) => {
    blocks.forEach((way, k) => {
      const path = ['barriers', b, 'blocks', k];
      const there = known(to, 'space', way.from, spaces, [...path, 'from']);
      if (!known(to, 'space', way.to, spaces, [...path, 'to']) || !there) return;
      if (spaces.get(way.from)?.dustReaches.includes(way.to) !== true) {
        to.add(
          'yard.reference',
          path,
          `${name} bars dust from ${way.from} to ${way.to}, where none goes`,
          {
            value: way,
            cure: `Name ${way.to} in dustReaches of ${way.from}, or leave the way out.`,
          },
        );
      }
      const between = `${way.from}/${way.to}`;
      const other = taken.get(between);
      if (other !== undefined) {
        to.add(
          'yard.duplicate',
          path,
          `the barriers "${other}" and "${id}" both bar the way from ${way.from} to ${way.to}`,
          { value: way, cure: 'Keep one barrier for the way.' },
        );
      }
      taken.set(between, id);
    });
  });
}
