import type { CureMaterial } from '../material/material.ts';
import { missingOf, single } from './build.ts';
import { EPOXY_FAIRING_LIMITS, POLYESTER_FAIRING_LIMITS } from './conditions.ts';
import { EPOXY_CURED, epoxyFast } from './epoxy.ts';
import { laminatingPolyester } from './polyester.ts';
import { SOURCES } from './sources.ts';

/**
 * Nothing trustworthy gives its times (20 min to sand is for one recipe and no temperature). Its
 * hardener is a paste that carries the peroxide in something else, so the resins' range by mass
 * does not hold.
 */
export const polyesterFairing: CureMaterial = {
  ...laminatingPolyester,
  id: 'polyester-fairing',
  name: 'Polyester fairing compound',
  use: 'fairing',
  milestones: {},
  missing: missingOf({}, { 'pot-life': 'working time once the hardener paste is in' }),
  limits: POLYESTER_FAIRING_LIMITS,
  hardener: null,
  resinDensity: null,
  hardenerDensity: null,
  mixedDensity: null,
  shelfLifeDays: null,
};

const laws: CureMaterial['milestones'] = {
  // No temperature is given; 25 °C is the warm guess, so that colder shops wait longer.
  sandable: single(
    {
      milestone: 'sandable',
      trust: 'read',
      source: `${SOURCES.fairingNotes}: home-mixed, 24 to 72 h; no temperature given, taken as 25 °C`,
    },
    25,
    [1440, 4320],
    'hardness',
  ),
  cured: EPOXY_CURED,
};

export const epoxyFairing: CureMaterial = {
  ...epoxyFast,
  id: 'epoxy-fairing',
  name: 'Epoxy fairing compound',
  use: 'fairing',
  milestones: laws,
  missing: missingOf(laws),
  limits: EPOXY_FAIRING_LIMITS,
  gramsPerM2: null,
};
