import { addDays } from '#calendar/local-date.ts';
import { instantOf } from '../../show/time.ts';
import type { Picture } from './model.ts';
import type { Span } from './spans.ts';

export interface Day extends Span {
  /** `2026-11-26`. */
  readonly date: string;
}

/** The days of a picture, from midnight to midnight by the yard's clock. */
export function daysOf({ from, days }: Pick<Picture, 'from' | 'days'>, zone: string): Day[] {
  const midnight = (date: string): number => Date.parse(instantOf(`${date}T00:00`, zone));
  return Array.from({ length: days }, (_, k) => {
    const date = addDays(from, k);
    return { date, from: midnight(date), until: midnight(addDays(date, 1)) };
  });
}
