import { DomainError } from '#kernel/error.ts';

import { vapourHPa } from '../air/dew-point.ts';
import type { Span } from '../clock/series.ts';
import type { Weather } from './settings.ts';

const HOUR = 60;
const DAY_HOURS = 24;

/** The weather at any minute of a plan: straight between the hours of the table. */
export interface Outdoors {
  celsius(minute: number): number;
  /** Null: the table does not say how humid it is. */
  readonly vapourHPa: ((minute: number) => number) | null;
  /** The hours from one minute to another, at which it bends. */
  hours(from: number, to: number): number[];
  /** Of a stretch of time, what lies outside the table and is assumed. */
  assumed(from: number, to: number): Span[];
}

/** Beyond either end of a table of so many hours the same hour of its nearest day; of a short table its end. */
function insideTable(hour: number, hours: number): number {
  const last = hours - 1;
  if (hour > last) return Math.max(0, hour - Math.ceil((hour - last) / DAY_HOURS) * DAY_HOURS);
  if (hour < 0) return Math.min(last, hour + Math.ceil(-hour / DAY_HOURS) * DAY_HOURS);
  return hour;
}

/** Throws `input.field` for an empty table. */
export function outdoorsOf({ start, celsius, humidity }: Weather): Outdoors {
  const hours = celsius.length;
  if (hours === 0) {
    throw new DomainError('input.field', 'The outdoor table is empty', {
      cure: 'Import hourly outdoor temperatures for the yard, or heat the space.',
    });
  }
  const read = (table: readonly number[]) => (minute: number) => {
    const hour = Math.floor((minute - start) / HOUR);
    const share = (minute - start) / HOUR - hour;
    const value = table[insideTable(hour, hours)];
    return share === 0 ? value : value + share * (table[insideTable(hour + 1, hours)] - value);
  };
  const end = start + (hours - 1) * HOUR;
  return {
    celsius: read(celsius),
    vapourHPa:
      humidity.length === 0 ? null : read(humidity.map((rh, k) => vapourHPa(celsius[k], rh))),
    hours(from, to) {
      const begin = start + Math.ceil((from - start) / HOUR) * HOUR;
      return Array.from(
        { length: Math.max(0, Math.floor((to - begin) / HOUR) + 1) },
        (_, k) => begin + k * HOUR,
      );
    },
    assumed: (from, to) =>
      [
        { start: from, end: Math.min(to, start) },
        { start: Math.max(from, end), end: to },
      ].filter((span) => span.start < span.end),
  };
}
