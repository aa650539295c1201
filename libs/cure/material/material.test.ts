import { describe, expect, it } from 'vitest';

import { pipeCoating } from '../testing/published.ts';
import { materialFaults } from './faults.ts';
import type { CureMaterial, CureRow } from './material.ts';
import { rateOf } from './rate.ts';

const table = (...rows: readonly CureRow[]): { rows: readonly CureRow[]; source: string } => ({
  rows,
  source: 'test',
});

const faultsOf = (change: Partial<CureMaterial>): [string, string][] =>
  materialFaults({ ...pipeCoating, ...change }, 'materials[2]').map((f) => [f.path, f.message]);

describe('material faults', () => {
  it('finds none in a published chart', () => {
    expect(materialFaults(pipeCoating, 'materials[0]')).toEqual([]);
  });

  it('names the row, what is wrong with it and what to do', () => {
    const rows = [
      { celsius: 20, minutes: 60 },
      { celsius: 10, minutes: 0 },
    ];
    expect(
      materialFaults({ ...pipeCoating, milestones: { gel: table(...rows) } }, 'materials[2]'),
    ).toEqual([
      {
        code: 'input.field',
        path: 'materials[2].milestones.gel.rows[1].minutes',
        value: 0,
        message: '0 is no length of time',
        cure: 'Give the time in minutes, more than 0.',
      },
      {
        code: 'input.field',
        path: 'materials[2].milestones.gel.rows[1].celsius',
        value: 10,
        message: '10 °C follows 20 °C',
        cure: 'List the rows from cold to hot, each temperature once.',
      },
    ]);
  });

  it('refuses one row, times that grow with warmth, and limits the wrong way round', () => {
    expect(faultsOf({ milestones: { gel: table({ celsius: 20, minutes: 60 }) } })).toEqual([
      ['materials[2].milestones.gel.rows', 'One temperature says nothing of another'],
    ]);
    const slower = table({ celsius: 10, minutes: 60 }, { celsius: 20, minutes: 70 });
    expect(faultsOf({ milestones: { gel: slower } })).toEqual([
      [
        'materials[2].milestones.gel.rows[1].minutes',
        '70 min at 20 °C is longer than 60 min at 10 °C',
      ],
    ]);
    expect(faultsOf({ minimumC: 30, maximumC: 20 })).toEqual([
      ['materials[2].minimumC', 'The minimum, 30 °C, is not below the maximum, 20 °C'],
    ]);
  });

  it('refuses a window that closes before it opens, also between rows', () => {
    const opens = table(
      { celsius: 10, minutes: 100 },
      { celsius: 20, minutes: 90 },
      { celsius: 30, minutes: 10 },
    );
    const closes = table({ celsius: 10, minutes: 110 }, { celsius: 30, minutes: 20 });
    expect(faultsOf({ milestones: { 'bond-opens': opens, 'bond-closes': closes } })).toEqual([
      ['materials[2].milestones.bond-closes', 'At 20 °C bond-closes comes before bond-opens'],
    ]);
    const wide = table({ celsius: 10, minutes: 110 }, { celsius: 30, minutes: 90 });
    expect(faultsOf({ milestones: { 'bond-opens': opens, 'bond-closes': wide } })).toEqual([]);
  });
});

describe('rate between rows', () => {
  it('is exact for an Arrhenius rate', () => {
    // 50 kJ/mol has Q10 = 1.97 from 20 to 30 degC and 0.7089 of its 25 degC rate at 20 (reference, 1a).
    const minutes = (celsius: number): number =>
      60 * Math.exp((50_000 / 8.314) * (1 / (celsius + 273.15) - 1 / 298.15));
    const rows = [0, 15, 45].map((celsius) => ({ celsius, minutes: minutes(celsius) }));
    const rate = rateOf(table(...rows), 'open', 0);
    expect(rate(25) * 60).toBeCloseTo(1, 12);
    expect(rate(20) * 60).toBeCloseTo(0.7089, 4);
    expect(rate(30) / rate(20)).toBeCloseTo(1.97, 2);
    for (const celsius of [1, 7.5, 15, 22, 38, 45]) {
      expect(rate(celsius) * minutes(celsius)).toBeCloseTo(1, 12);
    }
  });
});
