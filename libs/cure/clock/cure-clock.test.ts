import { describe, expect, it } from 'vitest';

import { DomainError } from '#kernel/error.ts';

import type { CureTable } from '../material/material.ts';
import {
  DRY,
  GEL,
  pipeCoating,
  RECOAT_CLOSES,
  RECOAT_OPENS,
  SHORE_D65,
  SHORE_D75,
} from '../testing/published.ts';
import { cureClock, latestStart, reachedAt } from './cure-clock.ts';
import { lagTable } from './lag-table.ts';
import { constantSeries } from './series.ts';

const withTable = (table: CureTable): typeof pipeCoating => ({
  ...pipeCoating,
  milestones: { gel: table },
});

const minutesAt = (table: CureTable, celsius: number): number | null =>
  reachedAt(cureClock(withTable(table), 'gel', 'open', constantSeries(celsius)), 0);

describe('a published chart through the clock', () => {
  const charts = { GEL, RECOAT_OPENS, RECOAT_CLOSES, DRY, SHORE_D65, SHORE_D75 };

  it.each(Object.entries(charts))(
    'gives every row of %s back at its own temperature',
    (_, table) => {
      for (const row of table.rows) expect(minutesAt(table, row.celsius)).toBe(row.minutes);
    },
  );

  it.each([
    // Activation energies fitted to the same chart in the reference, kJ/mol.
    ['gel', GEL, 46.1],
    ['recoat closes', RECOAT_CLOSES, 46.5],
    ['dry', DRY, 47.1],
    ['Shore D65', SHORE_D65, 83.2],
    // 80.7 in the reference; least squares over the same eight rows gives 81.2.
    ['Shore D75', SHORE_D75, 81.2],
  ] as const)('has the activation energy fitted to %s', (_, table, wanted) => {
    const points = table.rows.map(({ celsius }) => ({
      x: 1 / (celsius + 273.15),
      y: Math.log(minutesAt(table, celsius) ?? Number.NaN),
    }));
    const mean = (of: (p: { x: number; y: number }) => number): number =>
      points.reduce((sum, p) => sum + of(p), 0) / points.length;
    const [mx, my] = [mean((p) => p.x), mean((p) => p.y)];
    const slope = mean((p) => (p.x - mx) * (p.y - my)) / mean((p) => (p.x - mx) ** 2);
    expect((slope * 8.314) / 1000).toBeCloseTo(wanted, 1);
  });

  it('predicts a row that is left out from its neighbours', () => {
    // How far published rows are off the line between the two beside them, at worst.
    const worst = (table: CureTable): number =>
      Math.max(
        ...table.rows.slice(1, -1).map((row) => {
          const rest = { ...table, rows: table.rows.filter((other) => other !== row) };
          return Math.abs((minutesAt(rest, row.celsius) ?? Infinity) / row.minutes - 1);
        }),
      );
    expect(worst(GEL)).toBeLessThan(0.18);
    expect(worst(RECOAT_CLOSES)).toBeLessThan(0.11);
    expect(worst(DRY)).toBeLessThan(0.13);
    // Hardness is no straight line: at 10 degC the chart says 75 h and its neighbours 43 h.
    // A sheet must give a row wherever the yard works.
    expect(worst(SHORE_D65)).toBeGreaterThan(0.4);
    expect(worst(SHORE_D65)).toBeLessThan(0.43);
  });
});

describe('outside the rows', () => {
  const table: CureTable = {
    rows: [
      { celsius: 10, minutes: 240 },
      { celsius: 20, minutes: 120 },
    ],
    source: 'test',
  };
  const material = { ...withTable(table), minimumC: 5 };
  const at = (side: 'open' | 'close', celsius: number): number | null =>
    reachedAt(cureClock(material, 'gel', side, constantSeries(celsius)), 0);

  it('keeps an opening at the hottest time and lets a closing come sooner', () => {
    expect(at('open', 35)).toBe(120);
    // Halved from 10 to 20 degC, which is 1.2047e-4 in 1/T; 20 to 35 degC is 1.6605e-4,
    // or 1.3783 times as far: 120 / 2^1.3783 = 46.16.
    expect(at('close', 35)).toBe(46);
  });

  it('lets an opening come later than the coldest time and keeps a closing there', () => {
    expect(at('open', 6)).toBeGreaterThan(240);
    expect(at('close', 6)).toBe(240);
  });

  it('takes what would last more than a century for a stall', () => {
    // ln(4000 / 60) over a degree; followed for 19 degrees more it is 4000 min * e^85, some 10^35 years.
    const rows = [
      { celsius: 49, minutes: 4000 },
      { celsius: 50, minutes: 60 },
    ];
    const material = { ...withTable({ rows, source: 'made up' }), minimumC: 0 };
    const clock = cureClock(material, 'gel', 'open', constantSeries(30));
    expect(reachedAt(clock, 0)).toBeNull();
    expect(latestStart(clock, 2325)).toBeNull();
  });

  it('stops below the minimum', () => {
    expect(at('open', 4.9)).toBeNull();
    expect(at('close', 4.9)).toBeNull();
    const night = { start: 0, step: 600, celsius: [20, 0, 20] };
    const clock = cureClock(material, 'gel', 'open', night);
    expect(reachedAt(clock, 540)).toBe(1260);
    expect(latestStart(clock, 600)).toBe(480);
    expect(latestStart(clock, 1319)).toBe(599);
    expect(latestStart(clock, 1320)).toBe(1200);
    expect(latestStart(cureClock(material, 'gel', 'open', constantSeries(0)), 600)).toBeNull();
  });
});

describe('lag table', () => {
  it('is the clock on the grid, with horizon + 1 for what lies beyond', () => {
    const clock = cureClock(pipeCoating, 'gel', 'open', constantSeries(27));
    expect(lagTable(clock, 10, 55)).toEqual([30, 40, 50, 56, 56, 56, 56]);
  });
});

it('says which milestone a sheet lacks', () => {
  expect(() => cureClock(pipeCoating, 'handle', 'open', constantSeries(20))).toThrow(DomainError);
  expect(() => cureClock(pipeCoating, 'handle', 'open', constantSeries(20))).toThrow(
    /no times for "handle"/,
  );
});
