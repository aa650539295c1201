import { describe, expect, it } from 'vitest';

import { constantBand, type TemperatureBand } from '../clock/series.ts';
import { behind, bodyAfter, chordAbove, follow } from './heat-store.ts';
import { spaceClimate } from './make.ts';
import { followed, settingsOf, spanOf, utc, weatherOf } from './testing/settings.ts';

describe('body with one heat store', () => {
  it('decays to a new temperature by the law of cooling', () => {
    // Newton's law: after t hours exp(-t / tau) of a difference is left (calculated).
    for (const hours of [1, 6, 12, 30])
      expect(bodyAfter(20, 10, 0, hours * 60, 360)).toBeCloseTo(10 + 10 * Math.exp(-hours / 6), 12);
  });

  it('is the same in one stretch as in two', () => {
    const half = bodyAfter(5, 12, 3, 35, 90);
    expect(bodyAfter(half, 15, 3, 35, 90)).toBeCloseTo(bodyAfter(5, 12, 6, 70, 90), 12);
  });

  it('bounds how far a chord is off, on the side that it is off', () => {
    for (const minutes of [1, 10, 60, 600]) {
      for (const [body, rise] of [
        [20, 0],
        [5, 4],
        [12, -6],
      ]) {
        const end = bodyAfter(body, 10, rise, minutes, 60);
        const bound = chordAbove(body, 10, rise, minutes, 60);
        for (const share of [0.1, 0.3, 0.5, 0.8]) {
          const truth = bodyAfter(body, 10, rise * share, minutes * share, 60);
          const above = body + share * (end - body) - truth;
          expect(above * Math.sign(bound)).toBeGreaterThanOrEqual(-1e-12);
          expect(Math.abs(above)).toBeLessThanOrEqual(Math.abs(bound) + 1e-12);
        }
      }
    }
  });

  it('follows a grid through, below and above the truth', () => {
    const drive = [10, 10, 20, 20, 20];
    const [low, through, high] = (['low', 'through', 'high'] as const).map((side) =>
      follow(drive, 30, 60, side),
    );
    expect(through[1]).toBe(10);
    expect(through[2]).toBeCloseTo(20 - 5 * (1 - Math.exp(-2)), 12);
    for (let k = 0; k < drive.length; k++) {
      expect(low[k]).toBeLessThanOrEqual(through[k]);
      expect(high[k]).toBeGreaterThanOrEqual(through[k]);
    }
    // It warms steadily less after the ramp: bent downwards, so only `high` gives way there.
    expect(low[4]).toBe(through[4]);
    expect(high[4]).toBeGreaterThan(through[4]);
  });

  it('is what resin in its cans does in the air of its store', () => {
    const air: TemperatureBand = constantBand(18, 1);
    expect(behind(air, 0)).toBe(air);
    expect([
      ...Array.from(behind(air, 5).cold.celsius),
      ...Array.from(behind(air, 5).warm.celsius),
    ]).toEqual([17, 19]);
    const { expected } = behind(
      {
        ...air,
        expected: { shape: 'lines', start: 0, step: 60, celsius: [10, 10, 20, 20] },
      },
      2,
    );
    // A ramp of 10 degrees in an hour, two hours behind: 20 - 2 * 10 * (1 - e^-0.5) (calculated).
    expect(expected.celsius[2]).toBeCloseTo(20 - 20 * (1 - Math.exp(-0.5)), 12);
  });
});

describe('space that follows the outdoors', () => {
  const at = (lagHours: number, celsius: (hour: number) => number): ArrayLike<number> =>
    spaceClimate(
      settingsOf(followed(lagHours)),
      weatherOf(-240 * 60, 400, celsius),
      [],
      utc,
      spanOf(4),
    ).air.expected.celsius;

  it('trails a steady ramp by the time constant', () => {
    // 0.1 degrees an hour, 8 hours behind (calculated).
    const celsius = at(8, (hour) => hour * 0.1);
    expect(celsius[120]).toBeCloseTo(2 - 0.8, 3);
  });

  it('damps and delays a daily swing as a first-order body does', () => {
    // Gain 1 / sqrt(1 + (w tau)^2), w = 2 pi / 24 h: for tau = 24 / (2 pi) h 1/sqrt 2, 3 h late
    // (calculated). Hourly chords of the sine cost up to 1 % of its height.
    const celsius = at(24 / (2 * Math.PI), (hour) => 10 * Math.sin((2 * Math.PI * hour) / 24));
    const day = Array.from(celsius).slice(0, 144);
    const highest = Math.max(...day);
    expect(highest).toBeGreaterThan(10 / Math.SQRT2 - 0.1);
    expect(highest).toBeLessThan(10 / Math.SQRT2);
    expect(Math.abs(day.indexOf(highest) - 9 * 6)).toBeLessThanOrEqual(1);
  });
});
