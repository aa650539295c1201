import type { CureMaterial } from '../material/material.ts';
import { missingOf, range, ruled, tabled } from './build.ts';
import { FINISH_LIMITS, GEL_COAT_LIMITS, MASS, peroxide } from './conditions.ts';
import { laminatingPolyester } from './polyester.ts';
import { SOURCES } from './sources.ts';
import { POLYESTER_TESTS } from './touch-tests.ts';

/**
 * The chart changes eightfold over 10 degrees (contradiction X2): it is read between its rows and
 * never followed with a rule that doubles. Below 15 degrees it has no entry at this percentage.
 * The part of it that was read does not name the milestone; 30 min at 25 °C with 1.06 % goes with
 * the gel time of another gel coat, 10 to 17 min with 1.8 %.
 */
const gel = tabled({ milestone: 'gel', trust: 'read', source: SOURCES.gelCoatChart }, [
  [15, 240],
  [20, 120],
  [25, 30],
]);

const COAT = {
  classId: null,
  base: 'polyester',
  blushes: false,
  hardener: peroxide(
    1.06,
    1.05,
    'calculated',
    `10 ml of 1.17 kg/l to a litre of 1.10 kg/l (${SOURCES.gelCoatChart})`,
  ),
  mass: MASS,
  resinDensity: range(1.1, 1.2, 'calculated', '550 to 600 g/m² at 0.5 mm'),
  hardenerDensity: laminatingPolyester.hardenerDensity,
  mixedDensity: range(1.1, 1.2, 'calculated', '550 to 600 g/m² at 0.5 mm'),
  gramsPerM2: range(
    550,
    600,
    'calculated',
    `0.5 mm, as 18 to 20 mil in ${SOURCES.gelCoatApplication}`,
  ),
  shelfLifeDays: null,
  touchTests: POLYESTER_TESTS,
} as const;

const laws: CureMaterial['milestones'] = { gel };

export const gelCoat: CureMaterial = {
  ...COAT,
  id: 'gel-coat',
  name: 'Gel coat',
  use: 'gel-coat',
  surface: 'inhibited',
  waxed: false,
  milestones: laws,
  missing: missingOf(laws, {
    'tack-free': 'tack-free time under a sealing film (in air it stays tacky)',
    sandable: 'time until it can be sanded, once sealed',
  }),
  limits: GEL_COAT_LIMITS,
};

const finishLaws: CureMaterial['milestones'] = {
  gel,
  'bond-closes': ruled(
    { trust: 'read', source: `${SOURCES.frpRules}, 602.2: waxed, without grinding to 24 h` },
    24 * 60,
    [15.6, 26.7],
  ),
};

export const finishGelCoat: CureMaterial = {
  ...COAT,
  id: 'finish-gel-coat',
  name: 'Finish gel coat (waxed)',
  use: 'finish',
  surface: 'sealed',
  waxed: true,
  milestones: finishLaws,
  missing: missingOf(finishLaws),
  limits: FINISH_LIMITS,
};
