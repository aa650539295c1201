import { dayNumber } from '#calendar/local-date.ts';
import type { When } from '#planning/decode/sheet.ts';

/** Minutes from one moment to the other; negative: it is earlier. */
export const minutesTo = (from: When, to: When): number =>
  Math.round((Date.parse(to.at) - Date.parse(from.at)) / 60_000);

const dayOf = ({ local }: When): number => dayNumber(local.slice(0, 10));

/** Days of the yard's calendar between them; negative: it is earlier. */
export const daysTo = (from: When, to: When): number => dayOf(to) - dayOf(from);
