import { fault, type Fault } from '#kernel/error.ts';
import type { Yard } from '../yard/yard.ts';

const CURE = 'Correct its time and its offset from UTC, or leave it out.';
const MINUTE_MS = 60_000;

/**
 * Readings and observations that are later than a clock, an ISO instant: nobody can have made them yet. Which
 * clock is the caller's to say; a yard by itself has none.
 */
export function futureFaults({ readings, observations }: Yard, clock: string): Fault[] {
  const now = Date.parse(clock);
  const late = readings.flatMap(({ id, at, minutes }, k) =>
    Date.parse(at) + minutes * MINUTE_MS <= now
      ? []
      : [
          fault(
            'cure.reading',
            `readings[${String(k)}].at`,
            `The reading "${id}" is from the future`,
            {
              value: at,
              cure: CURE,
            },
          ),
        ],
  );
  const unseen = observations.flatMap(({ id, at }, k) =>
    Date.parse(at) <= now
      ? []
      : [
          fault(
            'cure.reading',
            `observations[${String(k)}].at`,
            `The observation "${id}" is from the future`,
            { value: at, cure: CURE },
          ),
        ],
  );
  return [...late, ...unseen];
}
