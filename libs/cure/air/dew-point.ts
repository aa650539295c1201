/** Magnus constants over water, Sonntag 1990 as in WMO-No. 8 (from memory). */
const A = 17.62;
const B = 243.12;
const AT_ZERO_HPA = 6.112;

/** Vapour pressure over water in hectopascal at a temperature, by the Magnus formula (-45 to 60 degrees). */
export const saturationHPa = (celsius: number): number =>
  AT_ZERO_HPA * Math.exp((A * celsius) / (B + celsius));

/** Vapour pressure in hectopascal of air at `airC` with relative humidity `rh` in percent. */
export const vapourHPa = (airC: number, rh: number): number => (rh / 100) * saturationHPa(airC);

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
