import type { TemperatureBand, TemperatureSeries } from '../clock/series.ts';

/** Time constants after which less than 0.1 % of a first difference is left. */
export const SETTLED = 7;

/**
 * A body with one heat store, dT/dt = (drive - T) / tau, over minutes in which the drive is
 * straight: it trails a ramp by `slope * tau`, and the rest of the difference decays. Exact.
 */
export function bodyAfter(
  body: number,
  drive: number,
  rise: number,
  minutes: number,
  tau: number,
): number {
  if (tau === 0) return drive + rise;
  const behind = (rise / minutes) * tau;
  return drive + rise - behind + (body - drive + behind) * Math.exp(-minutes / tau);
}

/**
 * By how much the straight line between both ends may lie above such a body on its way (below it
 * where negative): the decaying part d e^(-t/tau) is the only one that is bent, and a chord is
 * off by at most an eighth of the greatest second derivative times the length squared.
 */
export function chordAbove(
  body: number,
  drive: number,
  rise: number,
  minutes: number,
  tau: number,
): number {
  if (tau === 0) return 0;
  const x = minutes / tau;
  return (body - drive + rise / x) * Math.min((x * x) / 8, 1 - Math.exp(-x));
}

/**
 * What follows values on a grid (straight between them) with a lag in minutes, settled at the
 * first. `low`: lines that are never above the body, `high`: never below, else through it.
 */
export function follow(
  drive: ArrayLike<number>,
  tau: number,
  step: number,
  side: 'low' | 'through' | 'high',
): Float64Array {
  if (tau === 0) return Float64Array.from(drive);
  const n = drive.length;
  // As in `bodyAfter` and `chordAbove`, for steps that are all of one length.
  const x = step / tau;
  const kept = Math.exp(-x);
  const bent = side === 'through' ? 0 : Math.min((x * x) / 8, 1 - kept);
  const out = new Float64Array(n);
  let body = drive[0];
  let offBefore = 0;
  for (let k = 1; k <= n; k++) {
    const behind = k < n ? (drive[k] - drive[k - 1]) / x : 0;
    const decaying = k < n ? body - drive[k - 1] + behind : 0;
    const off = bent * (side === 'high' ? Math.min(0, decaying) : Math.max(0, decaying));
    out[k - 1] = body - (Math.abs(off) > Math.abs(offBefore) ? off : offBefore);
    offBefore = off;
    if (k < n) body = drive[k] - behind + decaying * kept;
  }
  return out;
}

/**
 * What stands in such air and follows it so many hours behind: resin in its cans. Settled at
 * the band's first temperatures.
 */
export function behind(band: TemperatureBand, lagHours: number): TemperatureBand {
  if (lagHours === 0) return band;
  const lagged = (
    series: TemperatureSeries,
    side: 'low' | 'through' | 'high',
  ): TemperatureSeries => ({
    ...series,
    celsius: follow(series.celsius, lagHours * 60, series.step, side),
  });
  return {
    cold: lagged(band.cold, 'low'),
    expected: lagged(band.expected, 'through'),
    warm: lagged(band.warm, 'high'),
  };
}
