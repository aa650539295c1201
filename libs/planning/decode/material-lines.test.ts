import { describe, expect, it } from 'vitest';
import { CLASSES } from '#cure/catalogue/classes.ts';
import type { CureLaw, CureMaterial } from '#cure/material/material.ts';
import { cureMaterial } from '../yard/cure-material.ts';
import { smallYard } from '../testing/small-yard.ts';
import { materialLines } from './material-lines.ts';

const resin = (milestones: CureMaterial['milestones']): CureMaterial => ({
  ...cureMaterial(smallYard().materials[0]),
  milestones,
});

const evidence = {
  trust: 'read',
  source: 'a sheet',
  spread: 1.2,
  factor: 0.9,
  overridden: true,
} as const;

describe('materialLines', () => {
  it.each<[CureLaw, string]>([
    [
      {
        kind: 'table',
        rows: [
          { celsius: 10, minutes: 60 },
          { celsius: 20, minutes: 30 },
        ],
        ...evidence,
      },
      '60 min at 10 °C, 30 min at 20 °C',
    ],
    [
      { kind: 'activation', at: { celsius: 22, minutes: 10.5 }, kjPerMol: 55, ...evidence },
      '10.5 min at 22 °C, activation energy 55 kJ/mol',
    ],
    [
      { kind: 'doubling', at: { celsius: 22, minutes: 10 }, per10C: 2, ...evidence },
      '10 min at 22 °C, × 2 for each 10 °C colder',
    ],
    [
      {
        kind: 'conversion',
        k1: { a: 0, e: 0 },
        k2: { a: 3.7e22, e: 167_400 },
        m: 0.524,
        n: 1.476,
        initial: 0.01,
        reached: 0.5,
        ...evidence,
      },
      'conversion 0.01 to 0.5, k1 0/min · exp(-0 J/mol / RT), k2 3.7e+22/min · exp(-167400 J/mol / RT), m 0.524, n 1.476',
    ],
  ])('says a law in words, with its evidence and the yard’s factor: %#', (law, value) => {
    expect(materialLines(resin({ gel: law }))[0]).toEqual({ line: 'gel', value, ...evidence });
  });

  it('has a source, a trust and a spread for every number of every class', () => {
    for (const material of CLASSES) {
      const lines = materialLines(material);
      expect(lines.length).toBeGreaterThan(5);
      expect(new Set(lines.map(({ line }) => line)).size).toBe(lines.length);
      for (const { source, spread, value, overridden } of lines) {
        expect(source).not.toBe('');
        expect(value).not.toMatch(/NaN|undefined|null/);
        expect(spread).toBeGreaterThanOrEqual(0);
        expect(overridden).toBe(false);
      }
    }
  });
});
