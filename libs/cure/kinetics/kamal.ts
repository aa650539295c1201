import type { ConversionLaw } from '../material/material.ts';
import type { ConversionRate } from './reached.ts';

/**
 * J/(mol K), to the digits that published pairs of A and E were mostly reckoned with (common
 * practice): at 167 kJ/mol and 80 degrees the digits left out would move a rate by 0.3 %.
 */
const GAS = 8.314;
const KELVIN = 273.15;

type Arrhenius = ConversionLaw['k1'];

/** Per minute. What is faster than a microsecond is a slip of the sheet, and would overflow. */
const FASTEST = 6e7;

/** Per minute. */
const arrhenius = ({ a, e }: Arrhenius, celsius: number): number =>
  a === 0 ? 0 : Math.min(FASTEST, a * Math.exp(-e / (GAS * (celsius + KELVIN))));

/**
 * M. R. Kamal and S. Sourour, "Kinetics and thermal characterization of thermoset cure", Polym.
 * Eng. Sci. 13 (1973): da/dt = (k1 + k2 a^m) (1 - a)^n. Conversions are kept between 0 and 1,
 * which a stage of an integration may overstep.
 */
export function kamalRate({ k1, k2, m, n }: ConversionLaw): ConversionRate {
  return (conversion, celsius) => {
    const a = Math.min(1, Math.max(0, conversion));
    return (arrhenius(k1, celsius) + arrhenius(k2, celsius) * a ** m) * (1 - a) ** n;
  };
}

/**
 * True of a law whose rate is a function of the temperature times a function of the conversion:
 * its conversion depends only on the integral of exp(-E / RT) over time. False where the balance
 * of two reactions moves with the temperature.
 */
export const isSeparable = ({ k1, k2 }: ConversionLaw): boolean =>
  k1.a === 0 || k2.a === 0 || k1.e === k2.e;

/** How many times as fast at one temperature as at another, by one activation energy (J/mol). */
export const arrheniusRatio = (e: number, celsius: number, reference: number): number =>
  Math.exp((-e / GAS) * (1 / (celsius + KELVIN) - 1 / (reference + KELVIN)));
