import { describe, expect, it } from 'vitest';
import { currencyIn, zoneHere, zones } from './zones.ts';

describe('what a new yard is taken to be', () => {
  it.each([
    ['Europe/London', 'GBP'],
    ['Europe/Paris', 'EUR'],
    ['America/New_York', 'USD'],
    ['America/Halifax', 'CAD'],
    ['Australia/Hobart', 'AUD'],
    ['UTC', 'EUR'],
  ])('in %s, %s', (zone, currency) => {
    expect(currencyIn(zone)).toBe(currency);
    expect(Intl.supportedValuesOf('currency')).toContain(currencyIn(zone));
  });

  it('has the zone of the device among all zones, once', () => {
    const all = zones();
    expect(all.filter((zone) => zone === zoneHere())).toHaveLength(1);
    expect(all).toContain('Europe/Paris');
  });
});
