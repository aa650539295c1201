import { describe, expect, it } from 'vitest';

import { dewMargin, dewPoint } from './dew-point.ts';

describe('dew point', () => {
  it.each([
    // Calculated from the Magnus formula in the reference.
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

  it('fails and passes the surfaces of a published example by the rule of 3 degrees', () => {
    // "Ambient application conditions" v2 (scribd 146044552): air 16 degC and 71 %, surface 13,
    // fails; dry bulb 21, wet bulb 17, surface 19 passes. Humidity of the second from the wet
    // bulb by the psychrometric equation, coefficient 6.62e-4 per degree at 1013 hPa (from memory).
    const vapour = (c: number): number => 6.112 * Math.exp((17.62 * c) / (243.12 + c));
    const rh = (100 * (vapour(17) - 6.62e-4 * 1013 * (21 - 17))) / vapour(21);
    expect(dewPoint(21, rh)).toBeCloseTo(14.66, 1);
    expect(dewMargin(13, 16, 71)).toBeLessThan(3);
    expect(dewMargin(19, 21, rh)).toBeGreaterThanOrEqual(3);
  });
});
