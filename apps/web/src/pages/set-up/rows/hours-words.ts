import { number } from '../../../show/units.ts';
import { listed } from '../../../texts/language.ts';
import { setUp } from '../../../texts/set-up.ts';
import { runsOf, weekHours } from './patterns.ts';

const texts = setUp.hours;

/** `Mon–Fri`, `Tue and Thu`. */
export function daysInWords(days: readonly number[]): string {
  const name = (day: number): string => texts.short[day - 1] ?? '';
  const runs = runsOf(days).flatMap(([first, last]) => {
    if (first === last) return [name(first)];
    if (last === first + 1) return [name(first), name(last)];
    return [texts.range(name(first), name(last))];
  });
  return listed(runs);
}

/** `32.5 h a week`. */
export const totalInWords = (
  spans: readonly {
    readonly from: string;
    readonly to: string;
    readonly breaks?: readonly { readonly from: string; readonly to: string }[];
  }[],
): string => texts.total(number(weekHours(spans), 2));
