import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { constantSeries, type TemperatureSeries } from '../clock/series.ts';
import type { ConversionLaw } from '../material/material.ts';
import { hundredths } from '../testing/arbitraries.ts';
import { conversionClock, conversionMinutes, conversionRate } from './conversion.ts';
import { kamalRate } from './kamal.ts';
import { minutesAt, whenReached } from './reached.ts';
import { stretchesOf } from './stretches.ts';

/**
 * Set K1, glass/polyester, Bogetti and Gillespie 1991; the constants were taken from two public
 * repositories that name the paper, the listed minutes calculated from them. A hot-press resin:
 * it tests arithmetic, no boat. Per minute, J/mol.
 */
const K1: ConversionLaw = {
  kind: 'conversion',
  k1: { a: 0, e: 0 },
  k2: { a: 3.7e22, e: 1.674e5 },
  m: 0.524,
  n: 1.476,
  initial: 0.01,
  reached: 0.5,
};

const to = (reached: number): ConversionLaw => ({ ...K1, reached });

const steps = (step: number, ...celsius: number[]): TemperatureSeries => ({
  shape: 'steps',
  start: 0,
  step,
  celsius,
});

describe('set K1', () => {
  it.each([
    [80, 0.1, 78.346],
    [80, 0.3, 182.099],
    [80, 0.5, 290.824],
    [80, 0.7, 453.561],
    [80, 0.9, 895.515],
    [100, 0.1, 3.689],
    [100, 0.3, 8.574],
    [100, 0.5, 13.693],
    [100, 0.7, 21.355],
    [100, 0.9, 42.163],
  ])('at %d degrees comes to %d in %d min, to the thousandth listed', (celsius, a, minutes) => {
    const clock = conversionClock(to(a), constantSeries(celsius), 0, 1);
    expect(Math.abs(clock(0) - minutes)).toBeLessThan(1e-3);
  });

  it('agrees with its closed form to one part in ten million', () => {
    // m + n = 2: with u = a / (1 - a), du/dt = k u^m, so t = (u^(1-m) - u0^(1-m)) / ((1 - m) k).
    const k = 3.7e22 * Math.exp(-1.674e5 / (8.314 * 353.15));
    const u = (a: number) => (a / (1 - a)) ** 0.476;
    for (const a of [0.011, 0.1, 0.5, 0.9, 0.99]) {
      const exact = (u(a) - u(0.01)) / (0.476 * k);
      expect(Math.abs(conversionMinutes(to(a), 80) / exact - 1)).toBeLessThan(1e-7);
    }
  });

  it('comes to one half after 60 min at 80 and 10.868 min at 100 degrees', () => {
    const clock = conversionClock(to(0.5), steps(60, 80, 100), 0, 1);
    expect(clock(0)).toBeCloseTo(70.868, 2);
  });
});

describe('one activation energy', () => {
  const law = fc.record({
    both: fc.constantFrom('first', 'second', 'equal'),
    e: fc.integer({ min: 20_000, max: 90_000 }),
    m: fc.double({ min: 0.2, max: 2, noNaN: true }),
    n: fc.double({ min: 0.8, max: 2.5, noNaN: true }),
    reached: fc.double({ min: 0.1, max: 0.95, noNaN: true }),
  });
  const history = fc.array(hundredths(-5, 45), {
    minLength: 1,
    maxLength: 20,
  });

  it('needs only the integral of its rate: equation and equivalent age agree', () => {
    fc.assert(
      fc.property(law, history, fc.integer({ min: -50, max: 300 }), (given, celsius, laid) => {
        const { both, e, m, n, reached } = given;
        // About a day at 20 degrees.
        const a = 1e-3 * Math.exp(e / (8.314 * 293.15));
        const one: ConversionLaw = {
          kind: 'conversion',
          k1: { a: both === 'second' ? 0 : a, e },
          k2: { a: both === 'first' ? 0 : 3 * a, e },
          m,
          n,
          initial: 0.01,
          reached,
        };
        const rate = conversionRate(one, 2);
        if (rate === null) throw new Error('one energy gives a rate');
        const series: TemperatureSeries = { shape: 'steps', start: 0, step: 60, celsius };
        const ode = conversionClock(one, series, 2, 1)(laid);
        const byAge = whenGathered(celsius, 60, rate, laid);
        if (byAge === Infinity) expect(ode).toBe(Infinity);
        else expect(Math.abs(ode - byAge) / (byAge - laid)).toBeLessThan(1e-6);
      }),
      { numRuns: 200 },
    );
  });

  const two = (e2: number): ConversionLaw => ({
    kind: 'conversion',
    k1: { a: 1e-4 * Math.exp(50_000 / (8.314 * 293.15)), e: 50_000 },
    k2: { a: 1e-2 * Math.exp(e2 / (8.314 * 293.15)), e: e2 },
    m: 1,
    n: 1.5,
    initial: 0,
    reached: 0.6,
  });

  it.each([
    [50_000, true],
    [65_000, false],
    [35_000, false],
  ])('with a second energy of %d J/mol, adding shares of the way is exact: %s', (e2, exact) => {
    const law = two(e2);
    // Half of the way at 8 degrees by the time at 8 degrees, the rest at 35.
    const half = conversionMinutes(law, 8) / 2;
    const rest = conversionMinutes(law, 35) / 2;
    const off = conversionClock(law, steps(half, 8, 35), 0, 1)(0) - half;
    const wrong = Math.abs(off / rest - 1);
    expect(conversionRate(law, 0) !== null).toBe(exact);
    if (exact) expect(wrong).toBeLessThan(1e-7);
    else expect(wrong).toBeGreaterThan(0.05);
  });
});

/** When steps of temperature have given 1 in all, by plain addition. */
function whenGathered(
  celsius: readonly number[],
  step: number,
  rate: (celsius: number) => number,
  laid: number,
): number {
  let [at, left] = [laid, 1];
  for (let k = 0; k < celsius.length; k++) {
    const until = k === celsius.length - 1 ? Infinity : Math.max(at, (k + 1) * step);
    const perMinute = rate(celsius[k]);
    if (perMinute > 0 && at + left / perMinute <= until) return at + left / perMinute;
    if (until === Infinity) break;
    left -= (until - at) * perMinute;
    at = until;
  }
  return Infinity;
}

describe('a law of two energies over a changing history', () => {
  const law: ConversionLaw = {
    kind: 'conversion',
    k1: { a: 2e5, e: 55_000 },
    k2: { a: 5e7, e: 60_000 },
    m: 0.9,
    n: 1.6,
    initial: 0,
    reached: 0.7,
  };
  const day = Float64Array.from({ length: 145 }, (_, k) => 8 + 10 * Math.sin((k * Math.PI) / 36));
  const lines: TemperatureSeries = { shape: 'lines', start: 0, step: 10, celsius: day };

  it('is reached no sooner for a film laid later', () => {
    const clock = conversionClock(law, lines, 4, 1);
    let before = -Infinity;
    for (let laid = -120; laid < 1500; laid++) {
      const when = clock(laid);
      expect(when).toBeGreaterThanOrEqual(before);
      expect(when).toBeGreaterThanOrEqual(laid);
      before = when;
    }
  });

  it('is so of any such law, over any history', () => {
    const energies = fc.integer({ min: 30_000, max: 90_000 });
    const celsius = fc.array(fc.integer({ min: -5, max: 40 }), { minLength: 2, maxLength: 12 });
    const shape = fc.constantFrom('steps', 'lines');
    fc.assert(
      fc.property(energies, energies, celsius, shape, (e1, e2, history, of) => {
        const at20 = (e: number): number => Math.exp(e / (8.314 * 293.15));
        const any: ConversionLaw = {
          ...law,
          k1: { a: 2e-3 * at20(e1), e: e1 },
          k2: { a: 1e-2 * at20(e2), e: e2 },
        };
        const series: TemperatureSeries = { shape: of, start: 0, step: 60, celsius: history };
        const clock = conversionClock(any, series, 3, 1);
        const times = Array.from({ length: 24 }, (_, k) => clock(k * 30 - 60));
        const after = times.slice(1).map((when, k) => when >= times[k]);
        expect(after).not.toContain(false);
        expect([clock(61) >= clock(60), clock(62) >= clock(61)]).toEqual([true, true]);
      }),
      { numRuns: 50 },
    );
  });

  it('stands still below the minimum: a film laid in a stall is reached as one laid at its end', () => {
    const cold: TemperatureSeries = { shape: 'lines', start: 0, step: 60, celsius: [20, 0, 0, 20] };
    // 20 to 0 degrees in an hour: 4 degrees after 48 min; back at them after 120 + 12 min.
    const clock = conversionClock(law, cold, 4, 1);
    expect(clock(48)).toBe(clock(132));
    expect(clock(100)).toBe(clock(132));
    expect(clock(47)).toBeLessThan(clock(132));
    expect(clock(133)).toBeGreaterThan(clock(132));
    const frozen: TemperatureSeries = { shape: 'lines', start: 0, step: 60, celsius: [20, 0] };
    expect(conversionClock(law, frozen, 4, 1)(0)).toBe(Infinity);
  });

  it('does not depend on the tolerance by more than that', () => {
    const fine = conversionClock(law, lines, 4, 1, 1e-12)(30);
    expect(Math.abs(conversionClock(law, lines, 4, 1)(30) - fine)).toBeLessThan(1e-5);
    expect(Math.abs(conversionClock(law, lines, 4, 1, 1e-5)(30) - fine)).toBeLessThan(0.5);
  });

  it('takes twice as long at twice the scale, and warmer never later', () => {
    const [twice, once] = [2, 1].map((k) => conversionClock(law, constantSeries(18), 4, k)(0));
    expect(twice / once).toBeCloseTo(2, 7);
    for (let c = 5; c < 40; c++) {
      expect(conversionMinutes(law, c + 1)).toBeLessThan(conversionMinutes(law, c));
    }
  });

  it('never begins from nothing without a first reaction', () => {
    const none = { ...law, k1: { a: 0, e: 0 } };
    expect(conversionClock(none, lines, 4, 1)(0)).toBe(Infinity);
    expect(conversionMinutes(none, 20)).toBe(Infinity);
  });
});

describe('published rates of other forms', () => {
  const R = 8.314;
  const at = (a: number, e: number, celsius: number) => a * Math.exp(-e / (R * (celsius + 273.15)));

  /** Set K2, 3501-6 epoxy, Lee, Loos and Springer 1982, from public code that names the paper. */
  const k2 = (a: number, celsius: number): number => {
    const [one, two, three] = [
      at(2.101e9, 80_700, celsius),
      at(-2.014e9, 77_800, celsius),
      at(1.96e5, 56_600, celsius),
    ];
    return a <= 0.3 ? (one + two * a) * (1 - a) * (0.47 - a) : three * (1 - a);
  };

  it.each([
    [177, [0.314, 0.922, 2.403, 8.752, 26.041, 39.12]],
    [120, [7.276, 21.987, 61.398, 118.277, 273.169, 390.341]],
  ])('set K2 at %d degrees, to the thousandth listed', (celsius, minutes) => {
    const conversions = [0.1, 0.2, 0.3, 0.5, 0.8, 0.9];
    conversions.forEach((reached, k) => {
      const when = minutesAt(k2, celsius, 0, reached);
      expect(Math.abs(when - minutes[k])).toBeLessThan(1e-3);
    });
    // The second part is of first order: from .3 to .9 in ln(.7 / .1) / K3.
    const exact = Math.log(7) / at(1.96e5, 56_600, celsius);
    expect(minutesAt(k2, celsius, 0.3 + 1e-12, 0.9)).toBeCloseTo(exact, 5);
  });

  /** Set K3, 8552 epoxy, Hubert, Johnston 1997 and 2001, from public code that names the papers. */
  const k3 = (a: number, celsius: number): number => {
    const kelvin = celsius + 273.15;
    const control = 1 + Math.exp(43.09 * (a - (-1.684 + 5.475e-3 * kelvin)));
    return (60 * at(1.528e5, 66_500, celsius) * a ** 0.8129 * (1 - a) ** 2.736) / control;
  };

  it.each([
    [0.1, 6.936],
    [0.3, 14.145],
    [0.5, 23.037],
    [0.7, 43.549],
    [0.8, 83.91],
  ])(
    'set K3 at 180 degrees comes to %d in %d min, to the thousandth listed',
    (reached, minutes) => {
      const stretches = stretchesOf(constantSeries(180), 0);
      const when = whenReached(k3, { initial: 0.01, reached }, stretches, 0);
      expect(Math.abs(when - minutes)).toBeLessThan(1e-3);
    },
  );

  it('the way over time and the way over conversion agree', () => {
    const series: TemperatureSeries = {
      shape: 'steps',
      start: 0,
      step: 1000,
      celsius: [120, 120.001],
    };
    const span = { initial: 0, reached: 0.9 };
    const over = whenReached(k2, span, stretchesOf(series, 0), 0);
    expect(over).toBeCloseTo(minutesAt(k2, 120, 0, 0.9), 4);
    expect(kamalRate(K1)(1.2, 80)).toBe(0);
  });
});
