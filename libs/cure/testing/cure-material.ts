import { figure, level } from '../evidence/figure.ts';
import type { CureLaw, CureMaterial, Limits } from '../material/material.ts';

const SOURCE = 'made up for a test';

/** An exact table of `[celsius, minutes]` rows, spread and factor 1, unless `more` says otherwise. */
export const tableLaw = (
  rows: readonly (readonly [celsius: number, minutes: number])[],
  more: Partial<Pick<CureLaw, 'trust' | 'source' | 'spread' | 'factor' | 'overridden'>> = {},
): Extract<CureLaw, { readonly kind: 'table' }> => ({
  kind: 'table',
  rows: rows.map(([celsius, minutes]) => ({ celsius, minutes })),
  trust: 'sheet',
  source: SOURCE,
  spread: 1,
  factor: 1,
  overridden: false,
  ...more,
});

/** Limits that allow -20 to 60 degrees and ask for nothing else; below, the cure stalls. */
const LIMITS: Limits = {
  minimumC: level(-20, 'sheet', SOURCE),
  belowMinimum: 'stalls',
  maximumC: level(60, 'sheet', SOURCE),
  warnBelowC: null,
  maximumHumidity: null,
  minimumDewMarginC: null,
  dampAir: 'warn',
  preheatHours: null,
  holdHours: null,
};

/** Limits in degrees, all else as in `cureMaterialOf`. */
export const limitsOf = (
  minimumC: number,
  maximumC: number,
  change: Partial<Limits> = {},
): Limits => ({
  ...LIMITS,
  minimumC: level(minimumC, 'sheet', SOURCE),
  maximumC: level(maximumC, 'sheet', SOURCE),
  ...change,
});

/**
 * A whole material whose numbers are exact (spread 1, or 0 degrees): a sealed epoxy of 100 g
 * to 25 g without milestones, whose cup gels at the sheet's time whatever its mass. `change`
 * takes the place of what it names.
 */
export const cureMaterialOf = (change: Partial<CureMaterial> = {}): CureMaterial => ({
  id: 'material',
  name: 'Material',
  classId: null,
  base: 'epoxy',
  use: 'laminating',
  surface: 'sealed',
  waxed: false,
  blushes: false,
  milestones: {},
  missing: [],
  limits: LIMITS,
  hardener: { kind: 'ratio', per100: figure(25, 'sheet', SOURCE, 1) },
  mass: {
    referenceGrams: figure(100, 'sheet', SOURCE, 1),
    referenceMm: figure(50, 'sheet', SOURCE, 1),
    massPower: figure(0, 'sheet', SOURCE, 1),
    thicknessPower: figure(0, 'sheet', SOURCE, 1),
  },
  resinDensity: figure(1.15, 'sheet', SOURCE, 1),
  hardenerDensity: figure(1, 'sheet', SOURCE, 1),
  mixedDensity: figure(1.12, 'sheet', SOURCE, 1),
  gramsPerM2: null,
  shelfLifeDays: null,
  touchTests: [],
  ...change,
});
