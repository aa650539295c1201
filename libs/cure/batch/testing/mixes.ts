import type { CureRow, CureLaw, CureMaterial, Hardener } from '../../material/material.ts';
import { figure, level } from '../../evidence/figure.ts';

const SOURCE = 'made up for tests';

const exact = (value: number) => figure(value, 'sheet', SOURCE, 1);

/** A table without spread. */
export const tableOf = (rows: readonly CureRow[], spread = 1): CureLaw => ({
  kind: 'table',
  rows,
  trust: 'sheet',
  source: SOURCE,
  spread,
  factor: 1,
  overridden: false,
});

export const percentOf = (
  used: number,
  effect: number | null = null,
): Extract<Hardener, { kind: 'percent' }> => ({
  kind: 'percent',
  usual: exact(2),
  used,
  warn: [1, 2],
  block: [1, 2.5],
  effect: effect === null ? null : exact(effect),
  source: SOURCE,
});

/**
 * A mix without spreads, to be changed: 60 min in a cup of 100 g at 10 °C, 30 at 20, 15 at 30,
 * half as long in one of 800 g (power a third), 2 % of hardener at 1.17 kg/l.
 */
export const mixOf = (change: Partial<CureMaterial> = {}): CureMaterial => ({
  id: 'resin',
  name: 'Resin',
  classId: null,
  base: 'polyester',
  use: 'laminating',
  surface: 'inhibited',
  waxed: false,
  blushes: false,
  milestones: {
    'pot-life': tableOf([
      { celsius: 10, minutes: 60 },
      { celsius: 20, minutes: 30 },
      { celsius: 30, minutes: 15 },
    ]),
  },
  missing: [],
  limits: {
    minimumC: level(10, 'sheet', SOURCE, 0),
    belowMinimum: 'stalls',
    maximumC: level(30, 'sheet', SOURCE, 0),
    warnBelowC: null,
    maximumHumidity: null,
    minimumDewMarginC: null,
    dampAir: 'warn',
    preheatHours: null,
    holdHours: null,
  },
  hardener: percentOf(2),
  mass: {
    referenceGrams: exact(100),
    referenceMm: exact(50),
    massPower: exact(1 / 3),
    thicknessPower: exact(0.25),
  },
  resinDensity: exact(1.1),
  hardenerDensity: exact(1.17),
  mixedDensity: exact(1.1),
  gramsPerM2: null,
  shelfLifeDays: null,
  touchTests: [],
  ...change,
});

/** A figure without spread. */
export const exactly = exact;
