import { reachedAt, type CureClock } from './cure-clock.ts';

/**
 * `values[k]` is the minute at which a film laid at minute k * grid reaches the clock's
 * milestone, for 0 up to the first grid point at or after the horizon; horizon + 1 stands
 * for any later moment and for never. Non-decreasing integers, rounded to the clock's side.
 */
export function lagTable(clock: CureClock, grid: number, horizon: number): number[] {
  const never = horizon + 1;
  const values: number[] = new Array<number>(Math.ceil(horizon / grid) + 1).fill(never);
  const { start, step } = clock.age;
  let from = 0;
  for (let k = 0; k < values.length; k += 1) {
    const reached = reachedAt(clock, k * grid, from) ?? never;
    if (reached >= never) break;
    values[k] = reached;
    // Later films reach it later, so the search goes on from here; a step back for the rounding.
    from = Math.max(0, Math.floor((reached - start) / step) - 1);
  }
  return values;
}
