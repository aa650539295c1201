import { DomainError } from '#kernel/error.ts';

import {
  dateOf,
  dayNumber,
  minuteOfDay,
  timeOf,
  weekdayOfDay,
  type LocalDate,
  type LocalTime,
} from './local-date.ts';
import { offsetsOf, type Zone } from './zone.ts';

const DAY = 1440;

/** Epoch minutes of an ISO 8601 instant with its offset, e.g. 2026-11-02T07:00Z. Throws `input.field`. */
export function instantOf(iso: string): number {
  const ms = /(?:Z|[+-]\d{2}:\d{2})$/.test(iso) ? Date.parse(iso) : Number.NaN;
  if (Number.isNaN(ms) || ms % 60_000 !== 0) {
    throw new DomainError('input.field', `"${iso}" is not an instant`, {
      cure: 'Write a whole minute with its offset, such as 2026-11-02T07:00Z.',
    });
  }
  return ms / 60_000;
}

/** The instant as ISO 8601 UTC, e.g. 2026-11-02T07:00:00.000Z. */
export const isoOf = (instant: number): string => new Date(instant * 60_000).toISOString();

/**
 * The instant (epoch minutes) at which the zone's wall clock shows a day and a minute of
 * that day. A wall time that the clocks skip moves forward by what they skip (01:30 in a
 * one-hour gap that starts at 01:00 is the instant shown as 02:30); one that they show
 * twice is the earlier. RFC 5545 section 3.3.5 reads such times the same way.
 */
export function instantAt(day: number, minute: number, zone: Zone): number {
  const offset = offsetsOf(zone);
  const wall = day * DAY + minute;
  // No zone has ever moved by more than a day, so these are the offsets on both sides.
  const before = offset(wall - DAY);
  const after = offset(wall + DAY);
  const early = wall - Math.max(before, after);
  if (offset(early) === Math.max(before, after)) return early;
  const late = wall - Math.min(before, after);
  if (offset(late) === Math.min(before, after)) return late;
  return wall - before;
}

/** The instant (epoch minutes) of a wall time; skipped and repeated times as `instantAt`. */
export const toInstant = (date: LocalDate, time: LocalTime, zone: Zone): number =>
  instantAt(dayNumber(date), minuteOfDay(time), zone);

/** What the zone's wall shows: day number since 1970-01-01, ISO weekday, minute of the day. */
export interface Wall {
  readonly day: number;
  readonly weekday: number;
  readonly minuteOfDay: number;
}

/** What the wall shows at an instant (epoch minutes). */
export function wallAt(instant: number, zone: Zone): Wall {
  const wall = instant + offsetsOf(zone)(instant);
  const day = Math.floor(wall / DAY);
  return { day, weekday: weekdayOfDay(day), minuteOfDay: wall - day * DAY };
}

export function toLocal(instant: number, zone: Zone): { date: LocalDate; time: LocalTime } {
  const wall = wallAt(instant, zone);
  return { date: dateOf(wall.day), time: timeOf(wall.minuteOfDay) };
}

/** A wall clock that counts minutes from a plan's origin (ISO instant). */
export function wallClock(zone: Zone, origin: string): (minute: number) => Wall {
  const from = instantOf(origin);
  return (minute) => wallAt(from + minute, zone);
}

/** The local date of a plan's minute. */
export const localDayOf = (origin: string, minute: number, zone: Zone): LocalDate =>
  dateOf(wallAt(instantOf(origin) + minute, zone).day);

/** The plan's minute at which a local day begins (may be negative). */
export const minuteOfLocalDay = (origin: string, date: LocalDate, zone: Zone): number =>
  instantAt(dayNumber(date), 0, zone) - instantOf(origin);

const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;
const MONTHS = [
  'Jan',
  'Feb',
  'Mar',
  'Apr',
  'May',
  'Jun',
  'Jul',
  'Aug',
  'Sep',
  'Oct',
  'Nov',
  'Dec',
] as const;

/** An instant in words, as the zone's wall shows it: `Tue 3 Nov 07:30`; seconds are cut off. */
export const localWords = (at: string, zone: Zone): string =>
  formatLocal(isoOf(Math.floor(Date.parse(at) / 60_000)), 0, zone);

/** A plan's minute in words: `Tue 3 Nov 07:30`. */
export function formatLocal(origin: string, minute: number, zone: Zone): string {
  const wall = wallAt(instantOf(origin) + minute, zone);
  const date = new Date(wall.day * 86_400_000);
  const day = `${WEEKDAYS[wall.weekday - 1]} ${date.getUTCDate()} ${MONTHS[date.getUTCMonth()]}`;
  return `${day} ${timeOf(wall.minuteOfDay)}`;
}
