import type { Schema } from '../api/client.ts';
import { locale } from '../texts/language.ts';

/** How somebody wants quantities shown. The service speaks SI units, °C and grams. */
export type Units = Pick<Schema<'Me'>, 'units' | 'temperature'>;

export const kinds = [
  'length',
  'area',
  'mass',
  'volume',
  'temperature',
  'degrees',
  'power',
] as const;
/** `temperature` is a reading, `degrees` a difference of two. */
export type Kind = (typeof kinds)[number];

interface Scale {
  readonly unit: string;
  /** Shown = stored * factor + offset. */
  readonly factor: number;
  readonly offset: number;
  /** Digits after the point. */
  readonly digits: number;
}

const scale = (unit: string, factor: number, digits: number, offset = 0): Scale => ({
  unit,
  factor,
  digits,
  offset,
});

/** Stored: m, m², g, ml, °C, K, W. Factors: NIST SP 811 (2008), Appendix B. */
const scales: Readonly<Record<Kind, { readonly metric: Scale; readonly imperial: Scale }>> = {
  length: { metric: scale('m', 1, 2), imperial: scale('ft', 1 / 0.3048, 1) },
  area: { metric: scale('m²', 1, 2), imperial: scale('sq ft', 1 / 0.3048 ** 2, 1) },
  mass: { metric: scale('g', 1, 0), imperial: scale('oz', 1 / 28.349523125, 1) },
  volume: { metric: scale('ml', 1, 0), imperial: scale('fl oz', 1 / 29.5735295625, 1) },
  temperature: { metric: scale('°C', 1, 1), imperial: scale('°F', 1.8, 0, 32) },
  degrees: { metric: scale('°C', 1, 1), imperial: scale('°F', 1.8, 1) },
  power: { metric: scale('W', 1, 0), imperial: scale('W', 1, 0) },
};

export function scaleOf(kind: Kind, { units, temperature }: Units): Scale {
  const isThermal = kind === 'temperature' || kind === 'degrees';
  const system = isThermal ? (temperature === 'celsius' ? 'metric' : 'imperial') : units;
  return scales[kind][system];
}

const formats = new Map<number, Intl.NumberFormat>();
const fixed = (digits: number): Intl.NumberFormat => {
  const known =
    formats.get(digits) ?? new Intl.NumberFormat(locale, { maximumFractionDigits: digits });
  formats.set(digits, known);
  return known;
};

/** `2.4 m²`, `26 sq ft`, `64 °F`. */
export function quantity(kind: Kind, stored: number, units: Units): string {
  const { unit, factor, offset, digits } = scaleOf(kind, units);
  return `${fixed(digits).format(stored * factor + offset)} ${unit}`;
}

/** What stands in a field: the shown number, to the digits of its unit and one more. */
export function shownNumber(kind: Kind, stored: number, units: Units): number {
  const { factor, offset, digits } = scaleOf(kind, units);
  return Number((stored * factor + offset).toFixed(digits + 1));
}

/** What is stored for a number typed in the shown unit. */
export function storedNumber(kind: Kind, shown: number, units: Units): number {
  const { factor, offset } = scaleOf(kind, units);
  return Number(((shown - offset) / factor).toPrecision(9));
}

/** `3`, `0.25`; at most so many digits after the point. */
export const number = (value: number, digits = 2): string => fixed(digits).format(value);

/** Cents as money, `€12.50`. */
export const money = (cents: number, currency: string): string =>
  new Intl.NumberFormat(locale, { style: 'currency', currency }).format(cents / 100);
