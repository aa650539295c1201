import { fault, type Fault } from '#kernel/error.ts';

import { isPlausible, PLAUSIBLE, unitCure } from './plausible.ts';
import type { SpaceReading } from './settings.ts';

/** Below it a humidity is taken for a share of 1: no shed is so dry (common practice, no source). */
const DRIEST_PERCENT = 3;

const what = ({ id, of, space }: SpaceReading): string => `Reading ${id} (${of} of ${space})`;

function ownFaults(reading: SpaceReading, now: number, path: string): Fault[] {
  const { at, minutes, celsius, humidity, of } = reading;
  const out: Fault[] = [];
  if (at + minutes > now) {
    const message = `${what(reading)} ends ${at + minutes - now} minutes from now: nobody has read it yet`;
    const cure = 'Correct its time and its offset from UTC, or leave it out.';
    out.push(fault('cure.reading', `${path}.at`, message, { value: celsius, cure }));
  }
  if (!isPlausible(celsius, PLAUSIBLE[of])) {
    const [low, high] = PLAUSIBLE[of];
    const message = `${what(reading)} says ${celsius} °C, which is outside ${low} to ${high} °C`;
    const cure = unitCure(celsius);
    out.push(fault('cure.implausible', `${path}.celsius`, message, { value: celsius, cure }));
  }
  if (humidity !== null && !(humidity >= DRIEST_PERCENT && humidity <= 100)) {
    const message = `${what(reading)} says a humidity of ${humidity} %`;
    const cure =
      humidity > 0 && humidity <= 1
        ? `Give percent: if ${humidity} is a share of 1, it is ${Math.round(humidity * 100)} %.`
        : `Give percent, ${DRIEST_PERCENT} to 100.`;
    out.push(fault('cure.implausible', `${path}.humidity`, message, { value: humidity, cure }));
  }
  return out;
}

/**
 * What is wrong with readings of any spaces, times in minutes from one origin: later than
 * `now`, a value that can only be of another unit, two of one thing that overlap (a moment
 * belongs to one; a stretch holds its first minute and not its last), told of the later one in
 * the list. `path` says where the list stands.
 */
export function readingFaults(
  readings: readonly SpaceReading[],
  now: number,
  path = 'readings',
): Fault[] {
  const out = readings.flatMap((reading, k) => ownFaults(reading, now, `${path}[${k}]`));
  const byThing = new Map<string, { reading: SpaceReading; k: number }[]>();
  readings.forEach((reading, k) => {
    const thing = `${reading.of}/${reading.space}`;
    const list = byThing.get(thing) ?? [];
    list.push({ reading, k });
    byThing.set(thing, list);
  });
  const overlaps: { k: number; found: Fault }[] = [];
  for (const list of byThing.values()) {
    list.sort((a, b) => a.reading.at - b.reading.at);
    let open = list[0];
    for (const next of list.slice(1)) {
      const end = open.reading.at + Math.max(1, open.reading.minutes);
      if (next.reading.at < end) {
        const [first, second] = open.k < next.k ? [open, next] : [next, open];
        const message = `${what(second.reading)} overlaps ${first.reading.id} of the same`;
        const cure = 'Leave one of the two out, or correct its time.';
        const more = { value: second.reading.celsius, cure };
        const found = fault('cure.reading', `${path}[${second.k}].at`, message, more);
        overlaps.push({ k: second.k, found });
      }
      if (next.reading.at + next.reading.minutes >= end) open = next;
    }
  }
  overlaps.sort((a, b) => a.k - b.k);
  return [...out, ...overlaps.map(({ found }) => found)];
}
