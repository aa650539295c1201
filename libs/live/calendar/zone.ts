import { isoOf } from '#calendar/local-time.ts';
import { offsetsOf } from '#calendar/zone.ts';
import type { Component } from './text.ts';

/** Instants (epoch minutes) in a span of years at which a zone's clocks are set to another offset. */
interface Shift {
  readonly at: number;
  readonly before: number;
  readonly after: number;
}

const DAY = 1440;

function shiftsOf(zone: string, from: number, until: number): Shift[] {
  const offset = offsetsOf(zone);
  const out: Shift[] = [];
  for (let day = from; day < until; day += DAY) {
    if (offset(day) === offset(day + DAY)) continue;
    // The first minute with the offset that the next midnight has.
    let [low, high] = [day, day + DAY];
    while (high - low > 1) {
      const middle = (low + high) >>> 1;
      if (offset(middle) === offset(day)) low = middle;
      else high = middle;
    }
    out.push({ at: high, before: offset(high - 1), after: offset(high) });
  }
  return out;
}

/** UTC-OFFSET (RFC 5545, 3.3.14). */
function offsetText(minutes: number): string {
  const [hours, rest] = [Math.floor(Math.abs(minutes) / 60), Math.abs(minutes) % 60];
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${minutes < 0 ? '-' : '+'}${two(hours)}${two(rest)}`;
}

function observance({ at, before, after }: Shift, isSummer: boolean): Component {
  // The onset is written by the clock from before it (3.6.5).
  const onset = isoOf(at + before)
    .slice(0, 19)
    .replaceAll(/[-:]/g, '');
  return {
    name: isSummer ? 'DAYLIGHT' : 'STANDARD',
    lines: [
      ['DTSTART', onset],
      ['TZOFFSETFROM', offsetText(before)],
      ['TZOFFSETTO', offsetText(after)],
    ],
    inside: [],
  };
}

/**
 * The zone's clocks from the beginning of one year to the end of another, from the runtime's own
 * zone data: every change is written out, since a rule for ever would outlive the next law.
 */
export function zoneComponent(zone: string, firstYear: number, lastYear: number): Component {
  const [from, until] = [Date.UTC(firstYear, 0, 1), Date.UTC(lastYear + 1, 0, 1)].map(
    (ms) => ms / 60_000,
  );
  const offset = offsetsOf(zone)(from);
  const shifts = shiftsOf(zone, from, until);
  const least = Math.min(offset, ...shifts.map(({ after }) => after));
  return {
    name: 'VTIMEZONE',
    lines: [['TZID', zone]],
    inside: [{ at: from, before: offset, after: offset }, ...shifts].map((shift) =>
      observance(shift, shift.after > least),
    ),
  };
}
