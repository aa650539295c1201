import type { Reading, Work } from './reading.ts';
import type { Violation } from './violation.ts';

/** What is wrong with the slot that work names, or null. */
function wrong({ problem }: Reading, { placement, mode, freed }: Work): string | null {
  const { start, slot } = placement;
  if (mode.slots === null) return slot === null ? null : 'uses a slot and needs none';
  const { id, slots } = problem.slotLists[mode.slots];
  if (slot === null) return `names no slot of ${id}`;
  if (!(slot in slots)) return `names slot ${slot}, which ${id} does not have`;
  const chance = slots[slot];
  if (start < chance.start) return `starts at ${start}, before the ${id} at ${chance.start}`;
  if (freed > chance.end) return `ends at ${freed}, after the ${id} until ${chance.end}`;
  if (chance.bookBy < problem.now)
    return `uses a slot of ${id} that had to be booked by ${chance.bookBy}`;
  return null;
}

/** Work that needs a slot lies in one that can still be booked; frozen work names none. */
export function slots(reading: Reading): Violation[] {
  return reading.work.flatMap((work): Violation[] => {
    const { placement, activity, mode, frozen } = work;
    const happened = placement.slot === null ? null : 'has happened and uses a slot';
    const what = frozen ? happened : wrong(reading, work);
    if (what === null) return [];
    return [
      {
        kind: 'slot',
        activities: [placement.activity],
        constraint: mode.slots === null ? null : { kind: 'slots', slotList: mode.slots },
        message: `${activity.id} ${what}`,
      },
    ];
  });
}
