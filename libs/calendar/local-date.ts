import { DomainError } from '#kernel/error.ts';

/** Days and times as a wall calendar shows them, with no zone: 'YYYY-MM-DD' (proleptic Gregorian) and 'HH:MM'. */
export type LocalDate = string;
export type LocalTime = string;

const DAY_MS = 86_400_000;
const DATE = /^(\d{4})-(\d{2})-(\d{2})$/;
const TIME = /^([01]\d|2[0-3]):([0-5]\d)$/;

/** The date of a day number (days since 1970-01-01). */
export const dateOf = (day: number): LocalDate => new Date(day * DAY_MS).toISOString().slice(0, 10);

function parseDate(date: string): number | null {
  const parts = DATE.exec(date);
  if (parts === null) return null;
  const day = Date.UTC(Number(parts[1]), Number(parts[2]) - 1, Number(parts[3])) / DAY_MS;
  return dateOf(day) === date ? day : null;
}

export const isLocalDate = (date: string): boolean => parseDate(date) !== null;

/** Days since 1970-01-01. Throws `input.field` for anything that is no day of the calendar. */
export function dayNumber(date: LocalDate): number {
  const day = parseDate(date);
  if (day !== null) return day;
  throw new DomainError('input.field', `"${date}" is not a date`, {
    cure: 'Write the date as YYYY-MM-DD, a day that exists.',
  });
}

export const isLocalTime = (time: string): boolean => TIME.test(time);

/** Minutes after midnight as the wall clock counts them, 0-1439. Throws `input.field`. */
export function minuteOfDay(time: LocalTime): number {
  const parts = TIME.exec(time);
  if (parts === null) {
    throw new DomainError('input.field', `"${time}" is not a time of day`, {
      cure: 'Write the time as HH:MM, 00:00 to 23:59.',
    });
  }
  return Number(parts[1]) * 60 + Number(parts[2]);
}

export function timeOf(minute: number): LocalTime {
  const hours = String(Math.floor(minute / 60)).padStart(2, '0');
  return `${hours}:${String(minute % 60).padStart(2, '0')}`;
}

export const addDays = (date: LocalDate, days: number): LocalDate => dateOf(dayNumber(date) + days);

/** ISO weekday of a day number: 1 is Monday, 7 Sunday. 1970-01-01 was a Thursday. */
export const weekdayOfDay = (day: number): number => ((((day + 3) % 7) + 7) % 7) + 1;

export const weekdayOf = (date: LocalDate): number => weekdayOfDay(dayNumber(date));

/** The Monday of the date's week. */
export const weekStart = (date: LocalDate): LocalDate => addDays(date, 1 - weekdayOf(date));
