import type { Schema } from '../../../api/client.ts';

export type ClimateHour = Schema<'ClimateHour'>;
export type Verdict = NonNullable<ClimateHour['verdict']>;

const hourMs = 3_600_000;

export interface Extreme {
  readonly at: string;
  readonly value: number;
}

/** Where `of` is least; undefined where it is known of no hour. */
export function least(
  hours: readonly ClimateHour[],
  of: (hour: ClimateHour) => number | null,
): Extreme | undefined {
  let found: Extreme | undefined;
  for (const hour of hours) {
    const value = of(hour);
    if (value !== null && (found === undefined || value < found.value)) {
      found = { at: hour.when.at, value };
    }
  }
  return found;
}

export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly kind: Verdict;
  readonly reasons: readonly string[];
}

/** Hours in a row with the same verdict for the same reasons. */
export function stretchesOf(hours: readonly ClimateHour[]): readonly Stretch[] {
  const stretches: Stretch[] = [];
  for (const { when, verdict, reasons } of hours) {
    if (verdict === null) continue;
    const from = Date.parse(when.at);
    const open = stretches.at(-1);
    const goesOn =
      open?.kind === verdict &&
      open.to === from &&
      open.reasons.map(withoutNumbers).join() === reasons.map(withoutNumbers).join();
    if (open !== undefined && goesOn) {
      stretches[stretches.length - 1] = { ...open, to: from + hourMs };
    } else stretches.push({ from, to: from + hourMs, kind: verdict, reasons });
  }
  return stretches;
}

/** `11.8 °C is below 12 °C` and `11.9 °C is below 12 °C` are the same reason an hour later. */
const withoutNumbers = (reason: string): string => reason.replace(/-?\d+([.,]\d+)?/g, '');
