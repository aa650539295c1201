import { number, scaleOf, type Units } from '../../../show/units.ts';

/** So many digits that a cup's error stays below a hundredth: scales of yards show 0.1 g or 0.01 oz. */
function shown(value: number, finest: number): string {
  const digits = value < 100 ? finest : Math.max(0, finest - 1);
  return number(value, digits);
}

/** Of what is put on the scales: `412 g`, `8.3 g`, `14.5 oz`. */
export function weighed(grams: number, units: Units): string {
  const { unit, factor } = scaleOf('mass', units);
  return `${shown(grams * factor, units.units === 'metric' ? 1 : 2)} ${unit}`;
}

/** Of what is drawn up in a measure: `8.3 ml`, `0.28 fl oz`. */
export function measured(millilitres: number, units: Units): string {
  const { unit, factor } = scaleOf('volume', units);
  return `${shown(millilitres * factor, units.units === 'metric' ? 1 : 2)} ${unit}`;
}
