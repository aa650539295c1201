import { scaleOf, type Units } from '../../../show/units.ts';

/** So many to either side; with the steps below they reach five degrees Celsius and some. */
const aside = 5;

/** What a thermometer may show where it is about so warm, in the reader's unit, coldest first. */
export function likely(celsius: number, units: Units): readonly number[] {
  const { unit, factor, offset } = scaleOf('temperature', units);
  const step = unit === '°C' ? 1 : 2;
  const middle = Math.round((celsius * factor + offset) / step) * step;
  return Array.from({ length: 2 * aside + 1 }, (_, k) => middle + (k - aside) * step);
}
