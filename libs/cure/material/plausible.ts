import { fault, type Fault } from '#kernel/error.ts';

import type { Figure } from '../evidence/evidence.ts';

/**
 * Between what a number lies in any workshop, and what it looks like where it does not. Wide
 * on purpose (common practice, no source): they catch a wrong unit, not a bad sheet.
 */
export interface Plausible {
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  /** What a smaller number looks like, and a larger. */
  readonly smaller: string;
  readonly larger: string;
}

const range = (
  unit: string,
  low: number,
  high: number,
  smaller: string,
  larger: string,
): Plausible => ({ unit, low, high, smaller, larger });

const FRACTION = 'a share of 1';

export const HUMIDITY = range('%', 5, 100, FRACTION, 'no percentage');
export const DEW_MARGIN = range('°C', 0, 15, 'the wrong sign', 'degrees Fahrenheit');
export const PREHEAT = range('h', 0, 240, 'the wrong sign', 'minutes');
export const HOLD = range('h', 0, 720, 'the wrong sign', 'minutes');
export const CATALYST = range('%', 0.1, 10, FRACTION, 'grams or millilitres to a kilogram');
export const EFFECT = range('', 0, 3, 'the wrong sign', 'no power of a percentage');
export const PER_100 = range('g to 100 g', 1, 300, FRACTION, 'grams to a kilogram');
export const DENSITY = range(
  'kg/l',
  0.7,
  3,
  'pounds to a pint or a share',
  'kilograms to a cubic metre',
);
/** Hollow fillers make a compound lighter than any resin. */
export const FILLED_DENSITY = { ...DENSITY, low: 0.3 };
export const COVERAGE = range('g/m²', 20, 20_000, 'kilograms', 'grams to the whole part');
export const SHELF_LIFE = range('days', 14, 3650, 'months or years', 'hours');
export const CUP_GRAMS = range('g', 5, 5000, 'kilograms', 'milligrams');
export const CUP_MM = range('mm', 1, 300, 'metres or centimetres', 'micrometres');
export const POWER = range('', 0, 1.5, 'the wrong sign', 'no power of a mass or thickness');
export const ACTIVATION = range('kJ/mol', 10, 200, 'electronvolts or kilocalories', 'joules');
/** No table of times has more than eightfold for ten degrees (two published gel-coat charts, read). */
export const PER_10C = range('times', 1, 10, 'the inverse', 'percent');
export const FACTOR = range('', 0.1, 10, 'no factor on times', 'percent');

/** To two places, as a hint reads. */
const short = (value: number): string => String(Number(value.toPrecision(3)));

/** Faults of one number of a sheet: `cure.implausible` outside the range. */
export function numberFaults(value: number, path: string, of: Plausible): Fault[] {
  const { unit, low, high, smaller, larger } = of;
  if (value >= low && value <= high) return [];
  const looks = value < low ? smaller : larger;
  const quantity = unit === '' ? String(value) : `${value} ${unit}`;
  const hint = Number.isFinite(value) ? `${quantity} looks like ${looks}` : 'It is no number';
  const cure = `Give it ${unit === '' ? 'as a number' : `in ${unit}`}, from ${low} to ${high}.`;
  return [fault('cure.implausible', path, hint, { value, cure })];
}

/** Hotter than any workshop; a hardener or limit for more is for an oven. */
const HOTTEST = 60;
const COLDEST = -40;

/** Faults of a temperature: what looks like degrees Fahrenheit, kelvin or nothing. */
export function celsiusFaults(value: number, path: string, hottest = HOTTEST): Fault[] {
  if (value >= COLDEST && value <= hottest) return [];
  const fahrenheit = ((value - 32) * 5) / 9;
  const kelvin = value - 273.15;
  let looks = 'is no temperature of a workshop';
  if (kelvin >= COLDEST && kelvin <= hottest) looks = `looks like kelvin (${short(kelvin)} °C)`;
  else if (fahrenheit > 0 && fahrenheit <= hottest)
    looks = `looks like degrees Fahrenheit (${short(fahrenheit)} °C)`;
  return [
    fault('cure.implausible', path, `${value} °C ${looks}`, {
      value,
      cure: `Give degrees Celsius, from ${COLDEST} to ${hottest}.`,
    }),
  ];
}

function spreadFaults(spread: number, path: string, low: number, high: number): Fault[] {
  if (spread >= low && spread <= high) return [];
  const kind = low === 1 ? 'a factor' : 'degrees or points';
  const message = `A spread is ${kind} of ${low} to ${high}, not ${spread}`;
  const cure =
    low === 1
      ? 'Give 1 for an exact number, 1.2 for plus or minus a fifth.'
      : 'Give 0 for an exact number, 2 for plus or minus two.';
  return [fault('input.field', `${path}.spread`, message, { value: spread, cure })];
}

/** Of times, ratios and densities. */
export const factorSpreadFaults = (spread: number, path: string): Fault[] =>
  spreadFaults(spread, path, 1, 10);

/** A quantity with a true zero; null is never wrong. */
export const figureFaults = (figure: Figure | null, path: string, of: Plausible): Fault[] =>
  figure === null
    ? []
    : [
        ...numberFaults(figure.value, `${path}.value`, of),
        ...factorSpreadFaults(figure.spread, path),
      ];

/** A humidity, margin or number of hours whose spread is in its own unit. */
export const levelFaults = (figure: Figure | null, path: string, of: Plausible): Fault[] =>
  figure === null
    ? []
    : [
        ...numberFaults(figure.value, `${path}.value`, of),
        ...spreadFaults(figure.spread, path, 0, 30),
      ];

/** A limit of temperature. */
export const temperatureFaults = (
  figure: Figure | null,
  path: string,
  hottest = HOTTEST,
): Fault[] =>
  figure === null
    ? []
    : [
        ...celsiusFaults(figure.value, `${path}.value`, hottest),
        ...spreadFaults(figure.spread, path, 0, 30),
      ];
