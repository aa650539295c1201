/** Magnus constants over water, Sonntag 1990 as in WMO-No. 8 (from memory). */
const A = 17.62;
const B = 243.12;

/**
 * Dew point in degrees Celsius of air at `airC` with relative humidity `rh` in percent
 * (above 0, to 100), by the Magnus formula: within 0.1 degrees or so from -45 to 60.
 */
export function dewPoint(airC: number, rh: number): number {
  const g = Math.log(rh / 100) + (A * airC) / (B + airC);
  return (B * g) / (A - g);
}

/** By how many degrees a surface is above the dew point of the air; negative means wet. */
export const dewMargin = (surfaceC: number, airC: number, rh: number): number =>
  surfaceC - dewPoint(airC, rh);
