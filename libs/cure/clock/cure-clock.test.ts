import { describe, expect, it } from 'vitest';

import { DomainError } from '#kernel/error.ts';

import { figure } from '../evidence/figure.ts';
import type { Hardener } from '../material/material.ts';
import type { Reckoning } from '../material/rate.ts';
import { cureMaterialOf, limitsOf, tableLaw } from '../testing/cure-material.ts';
import { gelling, gelMinutes } from '../testing/gelling.ts';
import { cureClock, latestStart, reachedAt } from './cure-clock.ts';
import { ageAt } from './equivalent-age.ts';
import { certain, constantBand, type TemperatureSeries } from './series.ts';

describe('outside the rows', () => {
  const material = gelling(
    tableLaw([
      [10, 240],
      [20, 120],
    ]),
  );
  const at = (side: Reckoning, celsius: number): number | null =>
    gelMinutes(material, side, celsius);

  it('keeps an opening at the hottest time and lets a closing come sooner', () => {
    expect(at('open', 35)).toBe(120);
    // Halved from 10 to 20 degC, which is 1.2047e-4 in 1/T; 20 to 35 degC is 1.6605e-4,
    // or 1.3783 times as far: 120 / 2^1.3783 = 46.16.
    expect(at('close', 35)).toBe(46);
    expect(at('expected', 35)).toBe(46);
  });

  it('lets an opening come later than the coldest time and keeps a closing there', () => {
    // 10 to 6 degC is 0.5060e-4 in 1/T, or 0.4200 times as far: 240 * 2^0.4200 = 321.1.
    expect(at('open', 6)).toBe(322);
    expect(at('expected', 6)).toBe(321);
    expect(at('close', 6)).toBe(240);
  });

  it('takes what would last more than a century for a stall', () => {
    // ln(4000 / 60) over a degree; followed for 19 degrees more it is 4000 min * e^85, some 10^35 years.
    const steep = gelling(
      tableLaw([
        [49, 4000],
        [50, 60],
      ]),
      { limits: limitsOf(0, 60) },
    );
    const clock = cureClock(steep, 'gel', 'open', constantBand(30));
    expect(reachedAt(clock, 0)).toBeNull();
    expect(latestStart(clock, 2325)).toBeNull();
  });

  it('stops below the minimum, but for a closing, which goes on as at the minimum', () => {
    for (const side of ['open', 'expected'] as const) expect(at(side, 4.9)).toBeNull();
    expect([at('close', 4.9), at('close', -20)]).toEqual([at('close', 5), at('close', 5)]);
    const night: TemperatureSeries = {
      shape: 'steps',
      start: 0,
      step: 600,
      celsius: [20, 0, 20],
    };
    const clock = cureClock(material, 'gel', 'open', certain(night));
    expect(reachedAt(clock, 540)).toBe(1260);
    expect(latestStart(clock, 600)).toBe(480);
    expect(latestStart(clock, 1319)).toBe(599);
    expect(latestStart(clock, 1320)).toBe(1200);
    expect(latestStart(cureClock(material, 'gel', 'open', constantBand(0)), 600)).toBeNull();
  });

  it('stops at the moment at which a line crosses the minimum, and goes on where it comes back', () => {
    // As slow at all temperatures, so that age is time above 5 degC: cooling from 20 to 1 degC in
    // 600 minutes that is for 15/19 of them, and again from 4/19 of the next 600 on.
    const even = gelling(
      tableLaw([
        [0, 500],
        [30, 500],
      ]),
    );
    const night = certain({ shape: 'lines', start: 0, step: 600, celsius: [20, 1, 20] });
    const [falls, rises] = [(600 * 15) / 19, 600 + (600 * 4) / 19];
    for (const side of ['open', 'expected'] as const) {
      const clock = cureClock(even, 'gel', side, night);
      if (clock.by.kind !== 'age') throw new Error('a table has an age');
      expect(ageAt(clock.by.age, falls)).toBeCloseTo(falls / 500, 12);
      expect(ageAt(clock.by.age, rises)).toBeCloseTo(falls / 500, 12);
      // 500 minutes less those before: 26.3 after 726.3.
      expect(rises + 500 - falls).toBeCloseTo(752.63, 2);
      expect(reachedAt(clock, 0)).toBe(753);
      expect(latestStart(clock, 753)).toBe(0);
    }
    // A closing is not put off by the cold, by no law: 500 minutes of any temperature.
    expect(reachedAt(cureClock(even, 'gel', 'close', night), 0)).toBe(500);
  });
});

describe('spread, factor and hardener', () => {
  const rows = [
    [10, 200],
    [30, 50],
  ] as const;

  it('reckons an opening with longer times in the cold, a closing with shorter in the warm', () => {
    const material = gelling(tableLaw(rows, { spread: 1.25, factor: 2 }));
    const at = (side: Reckoning, bandC: number): number | null =>
      reachedAt(cureClock(material, 'gel', side, constantBand(20, bandC)), 0);
    // At both ends of the band a row: 200 and 50 min. Times two, and a quarter either way.
    expect(at('open', 10)).toBe(200 * 2 * 1.25);
    expect(at('close', 10)).toBe((50 * 2) / 1.25);
    // Between them, log time is straight in 1/T: 97.6 min at 20 degC.
    const inverse = (c: number): number => 1 / (c + 273.15);
    const share = (inverse(20) - inverse(10)) / (inverse(30) - inverse(10));
    const middle = 200 * (50 / 200) ** share;
    expect(at('expected', 10)).toBe(Math.round(2 * middle));
    expect(at('open', 0)).toBe(Math.ceil(2.5 * middle));
    expect(at('close', 0)).toBe(Math.floor(1.6 * middle));
  });

  const percent = (used: number, effect: number | null): Hardener => ({
    kind: 'percent',
    usual: figure(2, 'sheet', 'test', 1),
    used,
    warn: [1, 2],
    block: [1, 2.5],
    effect: effect === null ? null : figure(effect, 'practice', 'test', 1.5),
    source: 'the sheet',
  });

  it('shortens times by the power that the sheet gives, on the safe side of its spread', () => {
    const law = tableLaw(rows);
    const at = (side: Reckoning, used: number): number | null =>
      gelMinutes(gelling(law, { hardener: percent(used, 0.6) }), side, 10);
    expect(at('open', 2)).toBe(200);
    // Half the catalyst: 200 * 2^0.6 = 303.1, at most 2^0.9 = 373.2 and at least 2^0.4 = 263.9.
    expect(at('expected', 1)).toBe(303);
    expect(at('open', 1)).toBe(374);
    expect(at('close', 1)).toBe(263);
    // A quarter more: 200 * 1.25^-0.6 = 174.9, at most 1.25^-0.4 = 182.9, at least 1.25^-0.9 = 163.6.
    expect(at('expected', 2.5)).toBe(175);
    expect(at('open', 2.5)).toBe(183);
    expect(at('close', 2.5)).toBe(163);
  });

  it('does not guess what another percentage does', () => {
    const law = tableLaw(rows);
    expect(gelMinutes(gelling(law, { hardener: percent(2, null) }), 'open', 10)).toBe(200);
    const other = gelling(law, { hardener: percent(1.5, null) });
    expect(() => gelMinutes(other, 'open', 10)).toThrow(
      expect.objectContaining({
        code: 'cure.missing',
        message: 'Material: nothing says how its times change from 2 to 1.5 % of hardener',
        cure: 'Enter “effect of hardener on gel time” from the maker’s data sheet, or mix 2 %.',
      }) as Error,
    );
  });

  it('refuses a percentage that the sheet does not allow', () => {
    const material = gelling(tableLaw(rows), { hardener: percent(3, 0.6) });
    expect(() => gelMinutes(material, 'open', 10)).toThrow(
      expect.objectContaining({
        code: 'cure.hardener',
        message: 'Material: 3 % of hardener is outside the 1 to 2.5 % that it allows',
      }) as Error,
    );
  });
});

describe('a milestone without a number', () => {
  it('names the line of the data sheet', () => {
    const material = cureMaterialOf({
      name: 'Glue',
      missing: [{ milestone: 'handle', line: 'clamp time' }],
    });
    const ask = (): unknown => cureClock(material, 'handle', 'open', constantBand(20));
    expect(ask).toThrow(DomainError);
    expect(ask).toThrow(
      expect.objectContaining({
        code: 'cure.missing',
        message: 'Glue: no trustworthy number is known for “handle”',
        cure: 'Enter “clamp time” from the maker’s data sheet.',
      }) as Error,
    );
  });
});
