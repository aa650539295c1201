import { describe, expect, it } from 'vitest';

import {
  bandOf,
  celsiusAt,
  coldest,
  constantBand,
  warmest,
  type TemperatureSeries,
} from './series.ts';

const series = (
  shape: TemperatureSeries['shape'],
  celsius: readonly number[],
): TemperatureSeries => ({ shape, start: 100, step: 10, celsius });

describe('temperature series', () => {
  it('reads steps and lines, and holds the first and last value beyond', () => {
    const minutes = [0, 100, 105, 110, 119, 120, 500];
    const at = (shape: TemperatureSeries['shape']): number[] =>
      minutes.map((minute) => celsiusAt(series(shape, [10, 20, 0]), minute));
    expect(at('steps')).toEqual([10, 10, 10, 20, 20, 0, 0]);
    expect(at('lines')).toEqual([10, 10, 15, 20, 2, 0, 0]);
  });

  it('takes the colder and the warmer of places, below and above both between moments', () => {
    const [one, two] = [series('lines', [10, 20]), series('lines', [20, 10])];
    for (const minute of [100, 102, 105, 109, 110]) {
      const both = [celsiusAt(one, minute), celsiusAt(two, minute)];
      expect(celsiusAt(coldest([one, two]), minute)).toBeLessThanOrEqual(Math.min(...both));
      expect(celsiusAt(warmest([one, two]), minute)).toBeGreaterThanOrEqual(Math.max(...both));
    }
  });

  it('is in a band of places as uncertain as all of them', () => {
    const band = bandOf([constantBand(20, 2), constantBand(15, 1)]);
    expect([band.cold, band.expected, band.warm].map((told) => celsiusAt(told, 0))).toEqual([
      14, 20, 22,
    ]);
  });

  it('does not compare different grids', () => {
    expect(() => coldest([series('lines', [1, 2]), series('steps', [1, 2])])).toThrow(
      'different grids',
    );
    expect(() => coldest([series('lines', [1, 2]), series('lines', [1])])).toThrow(
      'different grids',
    );
  });
});
