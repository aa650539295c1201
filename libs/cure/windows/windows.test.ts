import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { certain, constantBand, type TemperatureSeries } from '../clock/series.ts';
import type { CureMaterial } from '../material/material.ts';
import { bands, hundredths, windowed } from '../testing/arbitraries.ts';
import { pipeCoating } from '../testing/published.ts';
import { windowFor, type CureWindow } from './window.ts';

const recoat = (
  celsius: number,
  start: number,
  finish?: number,
  material = pipeCoating,
): CureWindow =>
  windowFor(material, 'bond-opens', 'bond-closes', constantBand(celsius), start, finish);

/** The chart with a spread on all its times. */
const vague = (spread: number): CureMaterial => ({
  ...pipeCoating,
  milestones: Object.fromEntries(
    Object.entries(pipeCoating.milestones).map(([key, law]) => [key, { ...law, spread }]),
  ),
});

describe('window', () => {
  it('is the published recoat window at a published temperature', () => {
    // "Powercrete J Gel, Re-coat and Curing Time Chart" (read): 27 degC, recoat 25-75 min.
    expect(recoat(27, 100)).toEqual({ opens: 125, closes: 175, empty: false });
  });

  it('opens for the last of a film and closes for the first', () => {
    expect(recoat(27, 100, 140)).toEqual({ opens: 165, closes: 175, empty: false });
    expect(recoat(27, 100, 150)).toEqual({ opens: 175, closes: 175, empty: false });
    expect(recoat(27, 100, 151)).toEqual({ opens: 176, closes: 175, empty: true });
  });

  it('is wider in the cold and never opens in the frost', () => {
    expect(recoat(10, 0)).toEqual({ opens: 100, closes: 235, empty: false });
    // Below its 4 degC it closes as at 4 degC, if it never opens.
    expect(recoat(3, 0)).toEqual({ opens: null, closes: 360, empty: true });
  });

  it('is safe from the latest opening to the earliest closing, and says when that is never', () => {
    // 27 degC: 25 * 1.15 = 28.75 and 75 / 1.15 = 65.2; with 1.8 it is 45 and 41.7.
    expect(recoat(27, 0, 0, vague(1.15))).toEqual({ opens: 29, closes: 65, empty: false });
    expect(recoat(27, 0, 0, vague(1.8))).toEqual({ opens: 45, closes: 41, empty: true });
    // Known to 11 degrees either way it may be 16 (57-150 min) or 38 degC (15-37 min).
    expect(windowFor(pipeCoating, 'bond-opens', 'bond-closes', constantBand(27, 11), 0)).toEqual({
      opens: 57,
      closes: 37,
      empty: true,
    });
  });
});

describe('laws of windows', () => {
  const minutes = fc.integer({ min: -600, max: 4000 });
  const last = (minute: number | null): number => minute ?? Infinity;

  it('opens no later than it closes, where the sheet allows it at each temperature it is used at', () => {
    // Claimed of a film laid at one moment, a climate known exactly and inside the rows, and a sheet
    // whose opening, at its longest, is no later than its closing, at its shortest, at each row.
    const inside: fc.Arbitrary<TemperatureSeries> = fc.record({
      shape: fc.constantFrom('steps', 'lines'),
      start: fc.integer({ min: -300, max: 300 }),
      step: fc.constantFrom(1, 7, 10, 60),
      celsius: fc.array(hundredths(0, 40), {
        minLength: 1,
        maxLength: 60,
      }),
    });
    fc.assert(
      fc.property(windowed, inside, minutes, (material, series, t) => {
        const window = windowFor(material, 'bond-opens', 'bond-closes', certain(series), t);
        // One law with no spread rounds up and down about the same moment.
        if (window.empty) expect(last(window.opens) - last(window.closes)).toBe(1);
        const rounded = last(window.closes) + 1;
        expect(last(window.opens)).toBeLessThanOrEqual(rounded);
      }),
    );
  });

  it('has ends that never come earlier for a later film', () => {
    fc.assert(
      fc.property(windowed, bands, minutes, fc.nat(600), (material, band, t, by) => {
        const [one, two] = [t, t + by].map((start) =>
          windowFor(material, 'bond-opens', 'bond-closes', band, start),
        );
        expect(last(one.opens)).toBeLessThanOrEqual(last(two.opens));
        expect(last(one.closes)).toBeLessThanOrEqual(last(two.closes));
      }),
    );
  });
});
