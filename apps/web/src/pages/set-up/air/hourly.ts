import type { Measured } from './parse-table.ts';

const hourMs = 3_600_000;

/** What is missing no longer than this lies on a line between its neighbours. */
export const longestGap = 3;

export interface Hourly {
  readonly from: number;
  readonly celsius: readonly number[];
  /** As many; none where an hour has no humidity. */
  readonly humidity: readonly number[];
  /** Hours that were missing and lie between their neighbours. */
  readonly filled: number;
}

/** Hours from `from` until `to` (ms) that the table does not have, too many to be guessed. */
export interface Gap {
  readonly from: number;
  readonly to: number;
}

const mean = (values: readonly number[]): number =>
  Math.round((values.reduce((sum, value) => sum + value, 0) / values.length) * 100) / 100;

/** One temperature an hour, of each hour's mean; or where it has a gap. */
export function hourlyOf(rows: readonly Measured[]): Hourly | Gap | null {
  const byHour = Map.groupBy(rows, ({ at }) => Math.floor(at / hourMs));
  const hours = [...byHour.keys()].sort((a, b) => a - b);
  const first = hours.at(0);
  if (first === undefined) return null;
  const celsius: number[] = [];
  const humidity: (number | null)[] = [];
  let before = first;
  let filled = 0;
  for (const hour of hours) {
    const missing = hour - before - 1;
    if (missing > longestGap) return { from: (before + 1) * hourMs, to: hour * hourMs };
    const here = byHour.get(hour) ?? [];
    const warm = mean(here.map((row) => row.celsius));
    const known = here.flatMap((row) => row.humidity ?? []);
    const damp = known.length === 0 ? null : mean(known);
    const [lastWarm, lastDamp] = [celsius.at(-1) ?? warm, humidity.at(-1) ?? null];
    for (let k = 1; k <= missing; k += 1) {
      const share = k / (missing + 1);
      celsius.push(mean([lastWarm + (warm - lastWarm) * share]));
      humidity.push(
        lastDamp === null || damp === null ? null : mean([lastDamp + (damp - lastDamp) * share]),
      );
      filled += 1;
    }
    celsius.push(warm);
    humidity.push(damp);
    before = hour;
  }
  const damps = humidity.filter((value) => value !== null);
  return {
    from: first * hourMs,
    celsius,
    // Sensors say 0 where they are broken, and the service takes 1 and up.
    humidity: damps.length === humidity.length ? damps.map((value) => Math.max(1, value)) : [],
    filled,
  };
}
