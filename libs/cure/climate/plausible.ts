/**
 * Temperatures that air and surfaces can have where boats are built (common practice, no
 * source): what lies outside is taken for another unit, not for weather.
 */
export const PLAUSIBLE = {
  outdoors: [-50, 50],
  air: [-40, 48],
  surface: [-40, 60],
} as const;

/**
 * Post-cures are given up to so many degrees (common practice, no source), of which 49 to 90 might
 * be room temperatures in Fahrenheit. They are believed of a space that is also kept at 35 or
 * less, which in Fahrenheit would be frost.
 */
export const POST_CURE = { celsius: 90, besides: 35 } as const;

/** What to do about a temperature outside its range, with what it would be in the unit it looks like. */
export function unitCure(value: number): string {
  const celsius = value > 200 ? value - 273.15 : value > 0 ? ((value - 32) * 5) / 9 : null;
  if (celsius === null) return 'Give degrees Celsius.';
  const unit = value > 200 ? 'kelvin' : 'degrees Fahrenheit';
  return `Give degrees Celsius: if ${value} is in ${unit}, it is ${celsius.toFixed(1)} °C.`;
}

/** Whether a temperature is a number inside its range. */
export const isPlausible = (value: number, [low, high]: readonly [number, number]): boolean =>
  value >= low && value <= high;
