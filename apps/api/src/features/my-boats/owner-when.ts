import { instantOf, isoOf, toLocal } from '#calendar/local-time.ts';
import type { When } from '#planning/decode/sheet.ts';

/** A stored moment as sheets have it. */
export function whenOf(at: Date, timeZone: string): When {
  const minute = instantOf(at.toISOString());
  const { date, time } = toLocal(minute, timeZone);
  return { at: isoOf(minute), local: `${date}T${time}` };
}

/** The day of the yard's calendar that a moment falls on; seconds do not matter. */
export const dateOf = (at: Date, timeZone: string): string =>
  toLocal(Math.floor(at.getTime() / 60_000), timeZone).date;
