import { reachedAt, type CureClock } from './cure-clock.ts';

/**
 * `values[k]` is the minute at which a film laid at minute k * grid reaches the clock's
 * milestone, for 0 up to the first grid point at or after the horizon; horizon + 1 stands
 * for any later moment and for never. Non-decreasing integers, rounded to the clock's side.
 */
export function lagTable(clock: CureClock, grid: number, horizon: number): number[] {
  const never = horizon + 1;
  const length = Math.ceil(horizon / grid) + 1;
  return Array.from({ length }, (_, k) => Math.min(never, reachedAt(clock, k * grid) ?? never));
}
