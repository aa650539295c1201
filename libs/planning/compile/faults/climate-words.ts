import type { Yard } from '../../yard/yard.ts';
import { range } from '../climate/climate.ts';
import type { Films } from '../films/films.ts';
import { spaceName } from '../trace/rows.ts';

export const degrees = (celsius: number): string => `${String(Math.round(celsius * 10) / 10)} °C`;

/** `Inside Kornog, at 3.1 °C to 9.4 °C`, as cold and as warm as its surfaces may be over the plan. */
export function climateWords(yard: Yard, space: string, films: Films): string {
  const { low, high } = range(films.climate(space).surface, 0);
  const span = high - low < 0.05 ? `at ${degrees(low)}` : `at ${degrees(low)} to ${degrees(high)}`;
  return `${spaceName(yard, space)}, ${span}`;
}
