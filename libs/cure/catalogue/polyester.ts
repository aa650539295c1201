import { figure } from '../evidence/figure.ts';
import type { CureLaw, CureMaterial } from '../material/material.ts';
import { missingOf, range, ruled, single, tabled } from './build.ts';
import { FINISH_LIMITS, MASS, peroxide, POLYESTER_LIMITS } from './conditions.ts';
import { SOURCES } from './sources.ts';
import { POLYESTER_TESTS } from './touch-tests.ts';

/** 15 to 20 min at 20 °C with 2 %. */
const potLife: CureLaw = single(
  { milestone: 'pot-life', trust: 'read', source: SOURCES.supplierGuide },
  20,
  [15, 20],
  'polyester',
);

/** 2 % by mass and 2 % by volume differ by 17 % and the guide does not say which it means. */
const twoPercent = peroxide(2, 1.17, 'read', SOURCES.supplierGuide);

const RESIN = {
  classId: null,
  base: 'polyester',
  blushes: false,
  hardener: twoPercent,
  mass: MASS,
  resinDensity: range(1.08, 1.12, 'read', SOURCES.laminatingSheet),
  hardenerDensity: figure(1.17, 'memory', 'MEKP 1.15 to 1.18 kg/l, from memory', 1.02),
  mixedDensity: range(1.08, 1.12, 'calculated', 'as the resin: 2 % of peroxide hardly changes it'),
  shelfLifeDays: figure(180, 'read', `${SOURCES.resinGuide}: try to use it within six months`),
  touchTests: POLYESTER_TESTS,
} as const;

const laminatingLaws: CureMaterial['milestones'] = {
  'pot-life': potLife,
  'bond-closes': ruled(
    { trust: 'read', source: `${SOURCES.frpRules}, 602.2: without grinding to 5 days` },
    5 * 24 * 60,
    [15, 30],
  ),
  // The rule grants nothing for more warmth than 18 degrees; 15 degrees follows 55 kJ/mol.
  cured: tabled(
    {
      milestone: 'cured',
      trust: 'calculated',
      source: `48 h at 18 °C or more (${SOURCES.productionRule}); 15 °C calculated with 55 kJ/mol`,
    },
    [
      [15, 3650],
      [18, 2880],
      [30, 2880],
    ],
  ),
};

/** In air its surface stays tacky by design, and bonds for days. */
export const laminatingPolyester: CureMaterial = {
  ...RESIN,
  id: 'laminating-polyester',
  name: 'Laminating polyester',
  use: 'laminating',
  surface: 'inhibited',
  waxed: false,
  milestones: laminatingLaws,
  missing: missingOf(laminatingLaws, {
    'tack-free': 'tack-free time with wax or under a sealing film (in air it stays tacky)',
    sandable:
      'time until it can be sanded (with wax or sealed; in air its surface clogs the paper)',
  }),
  limits: POLYESTER_LIMITS,
  gramsPerM2: null,
};

const finishLaws: CureMaterial['milestones'] = {
  'pot-life': potLife,
  'bond-closes': ruled(
    { trust: 'read', source: `${SOURCES.frpRules}, 602.2: waxed, without grinding to 24 h` },
    24 * 60,
    [15.6, 26.7],
  ),
};

export const finishPolyester: CureMaterial = {
  ...RESIN,
  id: 'finish-polyester',
  name: 'Finish polyester (waxed)',
  use: 'finish',
  surface: 'sealed',
  waxed: true,
  milestones: finishLaws,
  missing: missingOf(finishLaws),
  limits: FINISH_LIMITS,
  gramsPerM2: null,
};
