import type { CureMaterial } from '../material/material.ts';
import { missingOf, ruled, tabled } from './build.ts';
import { MASS, peroxide, VINYL_ESTER_LIMITS } from './conditions.ts';
import { laminatingPolyester } from './polyester.ts';
import { SOURCES } from './sources.ts';
import { POLYESTER_TESTS } from './touch-tests.ts';

const laws: CureMaterial['milestones'] = {
  // 30 to 40 min at 70 °F and 20 to 25 min at 80 °F.
  'pot-life': tabled(
    { milestone: 'pot-life', trust: 'read', source: SOURCES.vinylEsterGuide },
    [
      [21.1, Math.sqrt(30 * 40)],
      [26.7, Math.sqrt(20 * 25)],
    ],
    Math.sqrt(40 / 30),
  ),
  // Not a measurement but a caution, so that its spread does not shorten it further.
  'bond-closes': ruled(
    {
      trust: 'practice',
      source: 'common practice, no source: as a waxed polyester, a day is prudent',
    },
    24 * 60,
    [15, 30],
  ),
};

export const vinylEster: CureMaterial = {
  id: 'vinyl-ester',
  name: 'Vinyl ester',
  classId: null,
  base: 'vinyl-ester',
  use: 'laminating',
  surface: 'inhibited',
  waxed: false,
  blushes: false,
  milestones: laws,
  missing: missingOf(laws, {
    'tack-free': 'tack-free time with wax or under a sealing film (in air it stays tacky)',
    sandable:
      'time until it can be sanded (with wax or sealed; in air its surface clogs the paper)',
  }),
  limits: VINYL_ESTER_LIMITS,
  hardener: peroxide(1.25, 1.25, 'read', `1.0 to 1.5 % in ${SOURCES.vinylEsterGuide}`),
  mass: MASS,
  resinDensity: null,
  hardenerDensity: laminatingPolyester.hardenerDensity,
  mixedDensity: null,
  gramsPerM2: null,
  shelfLifeDays: null,
  touchTests: POLYESTER_TESTS,
};
