import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import type { Rate } from '../material/rate.ts';
import { histories } from '../testing/arbitraries.ts';
import { ageAt, firstMinuteAt } from './equivalent-age.ts';
import { equivalentAge } from './integrate.ts';
import { constantSeries, type TemperatureSeries } from './series.ts';

/*
 * The integrator against published maturity functions, whose rates are given to it here.
 * ASTM C1074 form with Q = 5000 K and 20 degC (from memory); Freiesleben Hansen-Pedersen
 * (from memory); fib Model Code 2010 / EN 1992-1-1:2004 eq. B.10 (read in public code).
 */
const K = 273.15;
const astm: Rate = (c) => Math.exp(-5000 * (1 / (c + K) - 1 / (20 + K)));
const hansenPedersen: Rate = (c) => {
  const energy = c >= 20 ? 33_500 : 33_500 + 1470 * (20 - c);
  return Math.exp((energy / 8.314462618) * (1 / (20 + K) - 1 / (c + K)));
};
const modelCode: Rate = (c) => Math.exp(13.65 - 4000 / (273 + c));
const doubling: Rate = (c) => 2 ** ((c - 20) / 10);

const HOUR = 60;

/** A history of stretches [hours, celsius] on an hourly grid. */
function stretches(...parts: readonly (readonly [number, number])[]): TemperatureSeries {
  const celsius = parts.flatMap(([hours, c]) => new Array<number>(hours).fill(c));
  return { shape: 'steps', start: 0, step: HOUR, celsius };
}

/** A smooth history sampled in the middle of one-minute steps. */
const smooth = (hours: number, at: (hour: number) => number): TemperatureSeries => ({
  shape: 'steps',
  start: 0,
  step: 1,
  celsius: Float64Array.from({ length: hours * HOUR }, (_, k) => at((k + 0.5) / HOUR)),
});

/** The same as lines between moments so many minutes apart. */
const lines = (hours: number, step: number, at: (hour: number) => number): TemperatureSeries => ({
  shape: 'lines',
  start: 0,
  step,
  celsius: Float64Array.from({ length: (hours * HOUR) / step + 1 }, (_, k) =>
    at((k * step) / HOUR),
  ),
});

const hours = (rate: Rate, series: TemperatureSeries): number => {
  const values = series.celsius.length - (series.shape === 'lines' ? 1 : 0);
  return ageAt(equivalentAge(rate, series), values * series.step) / HOUR;
};

const factors = (rate: Rate, celsius: readonly number[]): number[] =>
  celsius.map((c) => hours(rate, stretches([1, c])));

describe('equivalent age', () => {
  it('gives 15.7723 days for 7 d at 20 and 7 d at 25 degC in the Model Code form', () => {
    // fib-international/structuralcodes, tests of MC2010 creep and shrinkage, test_t_T.
    const days = hours(modelCode, stretches([7 * 24, 20], [7 * 24, 25])) / 24;
    expect(Math.abs(days / 15.7723 - 1)).toBeLessThan(1e-5);
  });

  it.each([
    // Calculated from the formulas in the reference, not by this code.
    [
      'Model Code',
      modelCode,
      [0.36714, 0.47784, 0.61614, 0.7875, 0.99812, 1.25506, 1.56624, 1.94058, 2.38798],
      5,
    ],
    ['ASTM form', astm, [0.2868, 0.3986, 0.5475, 0.7438, 1, 1.3311, 1.7553, 2.2939, 2.9723], 4],
  ] as const)('has the factors of the %s from 0 to 40 degC', (_, rate, wanted, digits) => {
    factors(rate, [0, 5, 10, 15, 20, 25, 30, 35, 40]).forEach((factor, k) => {
      expect(factor).toBeCloseTo(wanted[k], digits);
    });
  });

  it('has the factors of Freiesleben Hansen-Pedersen', () => {
    const wanted = [0.1511, 0.2926, 0.4974, 0.7477, 1, 1.2592, 1.5736, 2.4056];
    factors(hansenPedersen, [0, 5, 10, 15, 20, 25, 30, 40]).forEach((factor, k) => {
      expect(factor).toBeCloseTo(wanted[k], 4);
    });
  });

  const warming = stretches([6, 10], [6, 20], [12, 30]);

  it.each([
    ['ASTM form', astm, 30.3485],
    ['doubling per 10 degrees', doubling, 33],
    ['Freiesleben Hansen-Pedersen', hansenPedersen, 27.8678],
    ['Model Code', modelCode, 28.4805],
  ] as const)('adds up 6 h at 10, 6 h at 20, 12 h at 30 degC by the %s', (_, rate, wanted) => {
    expect(hours(rate, warming)).toBeCloseTo(wanted, 3);
  });

  it('is not the age at the mean temperature, which is 9 % off', () => {
    const shortcut = hours(astm, stretches([24, (6 * 10 + 6 * 20 + 12 * 30) / 24]));
    expect(shortcut).toBeCloseTo(27.72, 2);
    expect(hours(astm, warming) / shortcut - 1).toBeGreaterThan(0.09);
  });

  const ramp = (hour: number): number => 10 + (20 * hour) / 12;

  it.each([
    // Closed form of the first, exact: 12 (2 - 0.5) / (2 ln 2). The others by fine quadrature.
    ['doubling per 10 degrees', doubling, (12 * 1.5) / (2 * Math.LN2), 9],
    ['ASTM form', astm, 12.60241, 5],
    ['Model Code', modelCode, 12.34881, 5],
  ] as const)('follows a ramp from 10 to 30 degC in 12 h by the %s', (_, rate, wanted, digits) => {
    expect(hours(rate, smooth(12, ramp))).toBeCloseTo(wanted, 5);
    // One line over the whole ramp, however few its moments.
    expect(hours(rate, lines(12, 720, ramp))).toBeCloseTo(wanted, digits);
    expect(hours(rate, lines(12, 10, ramp))).toBeCloseTo(wanted, digits);
  });

  it('follows a daily swing of 8 degrees about 20: 24 I0(0.8 ln 2) hours', () => {
    const swing = (hour: number): number => 20 + 8 * Math.sin((2 * Math.PI * hour) / 24);
    expect(hours(doubling, smooth(24, swing))).toBeCloseTo(25.8807, 4);
    expect(hours(doubling, lines(24, 1, swing))).toBeCloseTo(25.8807, 4);
    // Chords ten minutes long swing 0.016 % less than the sine: 2 seconds in the day.
    expect(Math.abs(hours(doubling, lines(24, 10, swing)) - 25.8807)).toBeLessThan(6.5e-4);
  });

  it('is cut where a line crosses a kink', () => {
    // From 10 to 0 degC in 100 minutes, standing still below 4: one a minute for 60 minutes.
    const still: Rate = (c) => (c < 4 ? 0 : 1);
    const cooling: TemperatureSeries = { shape: 'lines', start: 0, step: 100, celsius: [10, 0] };
    const age = equivalentAge(still, cooling, [4]);
    expect(ageAt(age, 60)).toBe(60);
    expect(ageAt(age, 100)).toBe(60);
    expect(ageAt(equivalentAge(still, { ...cooling, celsius: [0, 10] }, [4]), 100)).toBe(60);
  });

  it('is one piece where the temperature stays as it is, and where it stands still', () => {
    const still: Rate = (c) => (c < 4 ? 0 : c);
    const celsius = [10, 10, 10, 10, 3, 2, 1, 2, 3, 10, 10, 10];
    const age = equivalentAge(still, { shape: 'lines', start: 0, step: 10, celsius }, [4]);
    expect([...age.at].filter((minute) => minute > 0 && minute < 30)).toEqual([]);
    expect([...age.at].filter((minute) => minute > 40 && minute < 80)).toEqual([]);
    expect([...age.at].filter((minute) => minute > 90 && minute < 110)).toEqual([]);
    expect(ageAt(age, 30)).toBe(300);
    expect(ageAt(age, 80)).toBe(ageAt(age, 40));
    expect(ageAt(age, 110) - ageAt(age, 90)).toBeCloseTo(200, 9);
  });

  it('gathers what closed forms say over any lines, wherever they cross kinks', () => {
    // Rates in proportion to the distance from 10 degC, and 5 more from 20 degC on: along a line
    // from a to b both have a closed form.
    const rate: Rate = (c) => Math.abs(c - 10) + (c >= 20 ? 5 : 0);
    const primitive = (c: number): number =>
      (Math.sign(c - 10) * (c - 10) ** 2) / 2 + 5 * Math.max(0, c - 20);
    const mean = (a: number, b: number): number =>
      a === b ? rate(a) : (primitive(b) - primitive(a)) / (b - a);
    fc.assert(
      fc.property(histories, (series) => {
        const { start, step, celsius } = series;
        const age = equivalentAge(rate, { ...series, shape: 'lines' }, [10, 20]);
        let wanted = 0;
        for (let k = 1; k < celsius.length; k++) wanted += step * mean(celsius[k - 1], celsius[k]);
        const found = ageAt(age, start + (celsius.length - 1) * step);
        expect(Math.abs(found - wanted)).toBeLessThan(1e-9 + 1e-12 * wanted);
      }),
    );
  });

  it('turns a gel time of 25 min at 73 degF into 100 min at 37 degF', () => {
    // ChemCo Systems, "Cold weather epoxy curing tips": times double per 18 degF.
    const inCelsius = (f: number): number => ((f - 32) * 5) / 9;
    const gel: Rate = (c) => 2 ** ((c - inCelsius(73)) / 10) / 25;
    const cold = equivalentAge(gel, constantSeries(inCelsius(37)));
    expect(firstMinuteAt(cold, 1)).toBeCloseTo(100, 9);
  });
});

describe('one rate law for the whole cure', () => {
  /*
   * Glass/polyester of Bogetti & Gillespie (1991), constants read in public code:
   * da/dt = k a^m (1-a)^n, m = .524, n = 1.476. With m + n = 2 the age k t at which a
   * conversion is reached has a closed form, so conversion depends on the integral alone.
   */
  const k: Rate = (c) => 3.7e22 * Math.exp(-1.674e5 / (8.314 * (c + K)));
  const side = (a: number): number => (a / (1 - a)) ** 0.476;
  const ageOf = (a: number): number => (side(a) - side(0.01)) / 0.476;

  it.each([
    // Minutes to .1, .3, .5, .7, .9: Runge-Kutta and closed form agreed in the reference.
    [80, [78.346, 182.099, 290.824, 453.561, 895.515]],
    [100, [3.689, 8.574, 13.693, 21.355, 42.163]],
  ] as const)('reaches each conversion when the literature says at %i degC', (celsius, wanted) => {
    const age = equivalentAge(k, constantSeries(celsius));
    [0.1, 0.3, 0.5, 0.7, 0.9].forEach((a, i) => {
      expect(firstMinuteAt(age, ageOf(a)) / wanted[i]).toBeCloseTo(1, 3);
    });
  });

  it('reaches half conversion 10.868 min after a step from 80 to 100 degC at 60 min', () => {
    const age = equivalentAge(k, { shape: 'steps', start: 0, step: 60, celsius: [80, 100] });
    expect(firstMinuteAt(age, ageOf(0.5))).toBeCloseTo(70.868, 2);
  });
});
