import { describe, expect, it } from 'vitest';

import { level } from '../evidence/figure.ts';
import type { Limits } from '../material/material.ts';
import { limitsOf } from '../testing/cure-material.ts';
import { airVerdict } from './verdict.ts';

const read = (value: number, source: string): ReturnType<typeof level> =>
  level(value, 'read', source);

const ISO_8502_4 = 'ISO 8502-4 / 12944-7 as summarised by a trade guide';
const EPIFANES = 'Epifanes, two-pack epoxy coatings';

/** Surface 3 degrees above the dew point, at most 85 % humidity. */
const dewRule: Limits = limitsOf(0, 40, {
  minimumDewMarginC: read(3, ISO_8502_4),
  maximumHumidity: read(85, ISO_8502_4),
  dampAir: 'refuse',
});

/** 15 to 25 degrees, at most 70 %. */
const coating: Limits = limitsOf(15, 25, {
  maximumHumidity: read(70, EPIFANES),
  dampAir: 'refuse',
  belowMinimum: 'spoils',
});

const verdict = (limits: Limits, surfaceC: number, airC: number, humidity: number | null): string =>
  airVerdict(limits, { surfaceC, airC, humidity }).verdict;

describe('verdict on the air', () => {
  it('fails and passes the examples of a published guide', () => {
    // "Ambient application conditions" v2 (scribd 146044552, read): 16 degC and 71 %, surface 13
    // fails; dry bulb 21, wet bulb 17 (67.0 % by the psychrometric formula), surface 19 passes.
    expect(verdict(dewRule, 13, 16, 71)).toBe('refuse');
    expect(verdict(dewRule, 19, 21, 67)).toBe('fine');
  });

  it('asks for 3 degrees above the dew point and 85 %, by ISO 8502-4', () => {
    // 20 degC and 60 %: dew point 12.00 (calculated).
    expect(verdict(dewRule, 15.01, 20, 60)).toBe('fine');
    expect(verdict(dewRule, 14.99, 20, 60)).toBe('refuse');
    expect(verdict(dewRule, 25, 20, 85)).toBe('fine');
    expect(verdict(dewRule, 25, 20, 85.1)).toBe('refuse');
  });

  it('keeps two-pack epoxy coatings between 15 and 25 degrees and under 70 %', () => {
    const inside = [15, 20, 25].map((celsius) => verdict(coating, celsius, celsius, 70));
    expect(inside).toEqual(['fine', 'fine', 'fine']);
    expect(verdict(coating, 14.9, 18, 60)).toBe('refuse');
    expect(verdict(coating, 25.1, 24, 60)).toBe('refuse');
    expect(verdict(coating, 24, 25.1, 60)).toBe('refuse');
    expect(verdict(coating, 20, 20, 71)).toBe('refuse');
  });

  it('names every limit that is not met, with the value found', () => {
    const found = airVerdict(
      { ...coating, minimumDewMarginC: read(3, ISO_8502_4) },
      { surfaceC: 13, airC: 26, humidity: 72 },
    );
    expect(found.verdict).toBe('refuse');
    expect(found.reasons).toEqual([
      'The surface is at 13.0 °C; below 15.0 °C the film is lost',
      'The air is at 26.0 °C, warmer than 25.0 °C',
      'The air has 72 % humidity, more than 70 %',
      'The surface, 13.0 °C, is -7.6 degrees above the dew point of 20.6 °C; 3.0 are needed',
    ]);
  });

  it('only warns where the material only warns', () => {
    const warns: Limits = { ...dewRule, dampAir: 'warn', warnBelowC: read(18, 'a sheet') };
    expect(airVerdict(warns, { surfaceC: 16, airC: 20, humidity: 50 })).toEqual({
      verdict: 'warn',
      reasons: ['The surface is at 16.0 °C; 18.0 °C or more is advised'],
    });
    expect(verdict(warns, 20, 20, 90)).toBe('warn');
    const stalls = limitsOf(10, 40);
    expect(airVerdict(stalls, { surfaceC: 8, airC: 8, humidity: null })).toEqual({
      verdict: 'warn',
      reasons: ['The surface is at 8.0 °C; below 10.0 °C the cure stands still'],
    });
  });

  it('says so where the humidity that is asked for is not known, and is never silently fine', () => {
    expect(airVerdict(dewRule, { surfaceC: 20, airC: 20, humidity: null })).toEqual({
      verdict: 'unknown',
      reasons: [
        'The humidity is not known; the material asks for at most 85 % and a surface 3.0 degrees above the dew point',
      ],
    });
    expect(verdict(coating, 10, 10, null)).toBe('refuse');
    expect(verdict(limitsOf(0, 40), 20, 20, null)).toBe('fine');
  });
});
