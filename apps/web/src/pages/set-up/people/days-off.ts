import type { Schema } from '../../../api/client.ts';

export type Exception = Schema<'ShiftException'>;

/** Days in a row that are alike. */
export interface Stretch {
  readonly first: string;
  readonly last: string;
  readonly days: number;
  readonly shifts: Exception['shifts'];
  readonly reason: string;
}

const dayMs = 86_400_000;
const at = (date: string): number => Date.parse(`${date}T00:00:00Z`);
const dateAt = (ms: number): string => new Date(ms).toISOString().slice(0, 10);

/** The longest stretch that is entered at once: a year. */
export const mostDays = 366;

/** Every date from the first to the last, both included; none where they are the wrong way round. */
export function datesBetween(first: string, last: string): string[] {
  const count = Math.min(mostDays, (at(last) - at(first)) / dayMs + 1);
  if (!Number.isFinite(count) || count < 1) return [];
  return Array.from({ length: count }, (_, k) => dateAt(at(first) + k * dayMs));
}

const alike = (one: Exception, other: Exception): boolean =>
  one.reason === other.reason && JSON.stringify(one.shifts) === JSON.stringify(other.shifts);

export function stretchesOf(exceptions: readonly Exception[]): readonly Stretch[] {
  const sorted = exceptions.toSorted((a, b) => a.date.localeCompare(b.date));
  const stretches: Stretch[] = [];
  let before: Exception | undefined;
  for (const day of sorted) {
    const open = stretches.at(-1);
    if (
      open !== undefined &&
      before !== undefined &&
      alike(before, day) &&
      at(day.date) - at(before.date) === dayMs
    ) {
      stretches[stretches.length - 1] = { ...open, last: day.date, days: open.days + 1 };
    } else {
      const { date, shifts, reason } = day;
      stretches.push({ first: date, last: date, days: 1, shifts, reason });
    }
    before = day;
  }
  return stretches;
}

/** With these days in place of whatever was there for them. */
export function withDays(
  exceptions: readonly Exception[],
  dates: readonly string[],
  day: Omit<Exception, 'date'>,
): Exception[] {
  const others = exceptions.filter(({ date }) => !dates.includes(date));
  return [...others, ...dates.map((date) => ({ date, ...day }))].sort((a, b) =>
    a.date.localeCompare(b.date),
  );
}

export const withoutStretch = (
  exceptions: readonly Exception[],
  { first, last }: Stretch,
): Exception[] => exceptions.filter(({ date }) => date < first || date > last);
