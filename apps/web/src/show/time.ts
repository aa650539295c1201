import { locale } from '../texts/language.ts';
import { counted } from '../texts/language.ts';

/** Moments are the service's: ISO 8601 in UTC. They are shown in the yard's zone, never in the browser's. */
type Moment = string | number | Date;

const formats = new Map<string, Intl.DateTimeFormat>();

function format(
  zone: string,
  options: Intl.DateTimeFormatOptions,
  name: string,
): Intl.DateTimeFormat {
  const key = `${zone} ${name}`;
  let known = formats.get(key);
  if (known === undefined) {
    known = new Intl.DateTimeFormat(locale, { timeZone: zone, hourCycle: 'h23', ...options });
    formats.set(key, known);
  }
  return known;
}

const dateOf = (at: Moment): Date => (at instanceof Date ? at : new Date(at));

/** `14:05`. */
export const clock = (at: Moment, zone: string): string =>
  format(zone, { hour: '2-digit', minute: '2-digit' }, 'clock').format(dateOf(at));

/** `Thu 26 Nov`. */
export const day = (at: Moment, zone: string): string =>
  format(zone, { weekday: 'short', day: 'numeric', month: 'short' }, 'day').format(dateOf(at));

/** `Thursday, 26 November 2026`. */
export const longDay = (at: Moment, zone: string): string =>
  format(zone, { weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' }, 'long').format(
    dateOf(at),
  );

/** `Thu 26 Nov, 14:05`. */
export const dayAndClock = (at: Moment, zone: string): string =>
  `${day(at, zone)}, ${clock(at, zone)}`;

/** A day of the wall calendar, `2026-11-26`, as `day` shows it. */
export const dayOfDate = (date: string): string => day(`${date}T12:00:00Z`, 'UTC');
export const longDayOfDate = (date: string): string => longDay(`${date}T12:00:00Z`, 'UTC');

const parts = (at: Moment, zone: string): Record<string, string> =>
  Object.fromEntries(
    new Intl.DateTimeFormat('en-CA', {
      timeZone: zone,
      hourCycle: 'h23',
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
    })
      .formatToParts(dateOf(at))
      .map(({ type, value }) => [type, value]),
  );

/** The day that the moment has in the zone, `2026-11-26`. */
export function dateIn(at: Moment, zone: string): string {
  const { year, month, day: date } = parts(at, zone);
  return `${year}-${month}-${date}`;
}

/** As `<input type="datetime-local">` has it, `2026-11-26T14:05`. */
export function localIn(at: Moment, zone: string): string {
  const { hour, minute } = parts(at, zone);
  return `${dateIn(at, zone)}T${hour}:${minute}`;
}

/**
 * The moment of a wall clock's reading in the zone, ISO 8601 in UTC; of an hour that comes twice
 * the first, of one that is skipped the moment after the gap.
 */
export function instantOf(local: string, zone: string): string {
  const asUtc = Date.parse(`${local}:00Z`);
  const offset = (at: number): number => Date.parse(`${localIn(at, zone)}:00Z`) - at;
  const candidates = [asUtc - offset(asUtc - 86_400_000), asUtc - offset(asUtc + 86_400_000)];
  const exact = candidates.filter((at) => localIn(at, zone) === local);
  return new Date(exact.length > 0 ? Math.min(...exact) : Math.max(...candidates)).toISOString();
}

/** `45 min`, `3 h 20 min`, `2 days 4 h`: rounded to the minute, or to the hour beyond a day. */
export function span(minutes: number): string {
  const whole = Math.max(0, Math.round(minutes));
  if (whole < 60) return `${String(whole)} min`;
  if (whole < 24 * 60) {
    const [hours, rest] = [Math.floor(whole / 60), whole % 60];
    return rest === 0 ? `${String(hours)} h` : `${String(hours)} h ${String(rest)} min`;
  }
  const hours = Math.round(whole / 60);
  const [days, rest] = [Math.floor(hours / 24), hours % 24];
  const inDays = counted(days, { one: '# day', other: '# days' });
  return rest === 0 ? inDays : `${inDays} ${String(rest)} h`;
}

/** Minutes from one moment to another; negative where it was before. */
export const minutesBetween = (from: Moment, to: Moment): number =>
  (dateOf(to).getTime() - dateOf(from).getTime()) / 60_000;
