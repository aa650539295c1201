import { figure } from '../evidence/figure.ts';
import type { CureLaw, CureMaterial } from '../material/material.ts';
import { missingOf, single, tabled } from './build.ts';
import { epoxyLimits, MASS } from './conditions.ts';
import { SOURCES } from './sources.ts';
import { EPOXY_TESTS } from './touch-tests.ts';

/** 24 h at 70 °F, fast or slow: cuts easiest after it. Hardness is what temperature changes most. */
const sandable: CureLaw = single(
  { milestone: 'sandable', trust: 'read', source: SOURCES.wetSanding },
  21,
  [1440, 1440],
  'hardness',
);

/** 90 % of its strength within 24 h at 70 °F: firm enough for clamps to come off. */
const handle: CureLaw = single(
  {
    milestone: 'handle',
    trust: 'read',
    source: `${SOURCES.wetSanding}: 90 % of its strength within 24 h`,
  },
  21,
  [1440, 1440],
  'hardness',
);

/** Seven days at room temperature, halved at 30 °C. */
export const EPOXY_CURED: CureLaw = tabled(
  { milestone: 'cured', trust: 'read', source: SOURCES.hardening },
  [
    [20, 7 * 24 * 60],
    [30, 3.5 * 24 * 60],
  ],
);

/** The ratio differs by product, from about 15 to 50 g to 100 g, so nothing is weighed without the sheet. */
const RESIN = {
  classId: null,
  base: 'epoxy',
  use: 'laminating',
  surface: 'sealed',
  waxed: false,
  blushes: true,
  hardener: null,
  mass: MASS,
  resinDensity: null,
  hardenerDensity: null,
  mixedDensity: null,
  gramsPerM2: figure(141, 'read', `first coat, 7.1 m²/kg (${SOURCES.boatConstruction})`),
  shelfLifeDays: null,
  touchTests: EPOXY_TESTS,
} as const;

const fastLaws: CureMaterial['milestones'] = {
  'pot-life': single(
    { milestone: 'pot-life', trust: 'read', source: SOURCES.epoxyCup },
    22,
    [9, 12],
    'epoxy',
  ),
  'open-time': single(
    { milestone: 'open-time', trust: 'read', source: SOURCES.epoxyCup },
    22,
    [60, 70],
    'epoxy',
  ),
  'tack-free': single(
    {
      milestone: 'tack-free',
      trust: 'read',
      source: `${SOURCES.epoxyCup}: a thin film is solid in 6 to 8 h`,
    },
    22,
    [360, 480],
    'epoxy',
  ),
  handle,
  sandable,
  cured: EPOXY_CURED,
};

export const epoxyFast: CureMaterial = {
  ...RESIN,
  id: 'epoxy-fast',
  name: 'Epoxy, fast',
  milestones: fastLaws,
  missing: missingOf(fastLaws),
  limits: epoxyLimits(4),
};

const slowLaws: CureMaterial['milestones'] = {
  'pot-life': single(
    { milestone: 'pot-life', trust: 'read', source: SOURCES.exotherm },
    21,
    [20, 30],
    'epoxy',
  ),
  handle,
  sandable,
  cured: EPOXY_CURED,
};

export const epoxySlow: CureMaterial = {
  ...RESIN,
  id: 'epoxy-slow',
  name: 'Epoxy, slow',
  milestones: slowLaws,
  missing: missingOf(slowLaws),
  limits: epoxyLimits(16),
};
