import { describe, expect, it } from 'vitest';

import { dewMargin, dewPoint, saturationHPa, vapourHPa } from './dew-point.ts';

describe('dew point', () => {
  it.each([
    // Calculated from the Magnus formula (Sonntag 1990 as in WMO-No. 8, constants from memory).
    [20, 50, 9.26],
    [20, 60, 12.0],
    [20, 70, 14.36],
    [20, 85, 17.4],
    [10, 80, 6.71],
    [25, 60, 16.69],
    [16, 71, 10.74],
  ])('of air at %i degC with %i %% humidity is %f', (air, rh, wanted) => {
    expect(dewPoint(air, rh)).toBeCloseTo(wanted, 2);
  });

  it('is the air temperature in saturated air', () => {
    expect(dewPoint(13.7, 100)).toBeCloseTo(13.7, 10);
  });

  it('is where the vapour of the air is all that it can hold', () => {
    for (const [air, rh] of [
      [20, 50],
      [-5, 80],
      [35, 20],
    ])
      expect(saturationHPa(dewPoint(air, rh))).toBeCloseTo(vapourHPa(air, rh), 9);
  });

  it('fails and passes the surfaces of a published example by the rule of 3 degrees', () => {
    // "Ambient application conditions" v2 (scribd 146044552, read): air of 16 degC and 71 % has a
    // dew point of 11 in its table, and a surface of 13 fails; dry bulb 21 and wet bulb 17 have
    // one of 15, and a surface of 19 passes.
    expect(Math.abs(dewPoint(16, 71) - 11)).toBeLessThan(0.5);
    expect(dewMargin(13, 16, 71)).toBeLessThan(3);
    // The wet bulb by the psychrometric formula of the AMS Glossary of Meteorology (6.60e-4 read
    // there; its factor 1 + 0.00115 Tw read in a second page), at 1013.25 hPa.
    const vapour = saturationHPa(17) - 6.6e-4 * (1 + 0.00115 * 17) * 1013.25 * (21 - 17);
    const rh = (100 * vapour) / saturationHPa(21);
    expect(dewPoint(21, rh)).toBeCloseTo(14.66, 1);
    expect(Math.abs(dewPoint(21, rh) - 15)).toBeLessThan(0.5);
    expect(dewMargin(19, 21, rh)).toBeGreaterThanOrEqual(3);
  });
});
