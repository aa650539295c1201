import { formatLocal, instantOf, isoOf, toLocal } from '#calendar/local-time.ts';
import type { When } from '../sheet.ts';

/** Minutes of a plan as people read them. */
export interface Moments {
  when(minute: number): When;
  /** `Tue 3 Nov 07:30`. */
  words(minute: number): string;
}

export function moments(origin: string, timeZone: string): Moments {
  const from = instantOf(origin);
  return {
    when: (minute) => {
      const { date, time } = toLocal(from + minute, timeZone);
      return { at: isoOf(from + minute), local: `${date}T${time}` };
    },
    words: (minute) => formatLocal(origin, minute, timeZone),
  };
}

/** `Tue 3 Nov 07:30`. */
export const inWords = (when: When, timeZone: string): string => formatLocal(when.at, 0, timeZone);

/** The later of two moments: the time alone where the day is the same. */
export const laterInWords = (after: When, when: When, timeZone: string): string =>
  after.local.slice(0, 10) === when.local.slice(0, 10)
    ? when.local.slice(11)
    : inWords(when, timeZone);

/** `Tue 3 Nov 07:30 to 09:10`. */
export const spanInWords = (from: When, to: When, timeZone: string): string =>
  `${inWords(from, timeZone)} to ${laterInWords(from, to, timeZone)}`;
