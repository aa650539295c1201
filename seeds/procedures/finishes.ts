import {
  after,
  bondOrPrepare,
  clean,
  dusty,
  film,
  holdPoint,
  keptFor,
  link,
  mixes,
  ON_GEL_COAT,
  one,
  prepares,
  wet,
  wiped,
  type ProcedureInput,
  type Rest,
} from './step.ts';

const filler = 'demo-fairing-filler';
const gelCoat = 'demo-gel-coat';
const finishCoat = 'demo-finish-coat';
const alone = { crewMax: 1 };
/** Per cent that a spray gun loses, cups included. Common practice, no source. */
const SPRAY_WASTE = 35;
/** Kilograms for a coat: 0.6 mm wet, lost spray included. Common practice, no source. */
const gelCoatUsed: Rest = {
  ...mixes({ kind: 'coat' }),
  bonding: 'cosmetic',
  consumes: [{ stock: 'gel-coat', perM2: 0.8, fixed: 0.2 }],
};
const gelCoatSprayed: Rest = { ...gelCoatUsed, ...mixes({ kind: 'coat' }, SPRAY_WASTE) };
const finishUsed: Rest = {
  ...mixes({ kind: 'coat', gramsPerM2: 300 }, SPRAY_WASTE),
  bonding: 'cosmetic',
};
const filled = (mm: number): Rest => ({ ...mixes({ kind: 'fill', mm }), bonding: 'cosmetic' });
const spray = { crewMax: 1, tools: [one('spray-gun')] };

/** Two rounds of filler and long-board. */
export const fairAndSand: ProcedureInput = {
  id: 'fair-and-sand',
  version: 1,
  name: 'Fair and sand',
  steps: [
    dusty(
      'key',
      'Wash, key, vacuum and wipe the surface',
      'fairing',
      { fixed: 25, perM2: 32 },
      prepares('wash', 80, 'extract', 'wipe'),
    ),
    wet(
      'fill-one',
      'Spread the first filler',
      'fairing',
      filler,
      { fixed: 15, perM2: 22 },
      filled(1.5),
    ),
    dusty(
      'board-one',
      'Wash, long-board, vacuum and wipe the first filler',
      'fairing',
      { fixed: 25, perM2: 82 },
      prepares('wash', 80, 'extract', 'wipe'),
    ),
    wet(
      'fill-two',
      'Spread the second filler',
      'fairing',
      filler,
      { fixed: 15, perM2: 15 },
      filled(0.5),
    ),
    dusty('board-two', 'Wash and long-board the second filler', 'fairing', {
      fixed: 25,
      perM2: 70,
    }),
    clean('check', 'Vacuum and sight along the surface', 'fairing', { fixed: 15, perM2: 4 }),
  ],
  links: [
    link('key', 'fill-one', after(15)),
    link('fill-one', 'board-one', film('sandable')),
    link('board-one', 'fill-two', after(15)),
    link('fill-two', 'board-two', film('sandable')),
    link('board-two', 'check'),
  ],
};

const second = bondOrPrepare(
  'coat-one',
  'coat-two',
  'finishing',
  { fixed: 25, perM2: 16 },
  ON_GEL_COAT,
);

/** Gel coat built up in two coats, the waxed finish coat still inside the second one's window. */
export const gelCoatBuild: ProcedureInput = {
  id: 'gel-coat-build',
  version: 1,
  name: 'Gel-coat build-up with a finish coat',
  steps: [
    holdPoint('colour', 'Owner agrees to the colour sample'),
    clean(
      'wash',
      'Take off the wax and wash',
      'finishing',
      { fixed: 15, perM2: 8 },
      prepares('dewax', 'wash'),
    ),
    dusty('sand', 'Sand the old gel coat', 'fairing', { fixed: 20, perM2: 45 }, prepares(80)),
    clean(
      'wipe',
      'Vacuum and wipe',
      'finishing',
      { fixed: 10, perM2: 3 },
      { splittable: false, ...alone, ...keptFor('coat-one') },
    ),
    wet(
      'coat-one',
      'Spray the first gel coat',
      'finishing',
      gelCoat,
      { fixed: 25, perM2: 6 },
      // Without wax it stays tacky in air: nothing makes it safe from dust but what comes next.
      { ...spray, ...gelCoatSprayed, coveredBy: ['key-for-coat-two', 'coat-two'] },
    ),
    ...second.steps,
    wet(
      'coat-two',
      'Spray the second gel coat',
      'finishing',
      gelCoat,
      { fixed: 25, perM2: 6 },
      { ...spray, ...gelCoatSprayed, coveredBy: ['finish-coat'] },
    ),
    wet(
      'finish-coat',
      'Spray the finish coat',
      'finishing',
      finishCoat,
      { fixed: 25, perM2: 6 },
      { ...spray, ...finishUsed },
    ),
    dusty('polish', 'Wash off the wax, wet-sand and polish', 'finishing', { fixed: 30, perM2: 60 }),
  ],
  links: [
    link('wash', 'sand'),
    link('sand', 'wipe'),
    link('colour', 'coat-one'),
    wiped('wipe', 'coat-one'),
    ...second.links,
    link('coat-two', 'finish-coat', film('bond-opens'), film('bond-closes')),
    link('finish-coat', 'polish', film('sandable')),
  ],
  choices: [second.choice],
};

const grip = bondOrPrepare(
  'base-coat',
  'grip-coat',
  'finishing',
  { fixed: 20, perM2: 14 },
  ON_GEL_COAT,
);

/** A hatch with a coloured base and a gritted grip coat; tape comes off while the coat still yields. */
export const hatchNonSkid: ProcedureInput = {
  id: 'hatch-non-skid',
  version: 1,
  name: 'Hatch with non-skid',
  steps: [
    clean('strip', 'Take off the fittings', 'joinery', { fixed: 75 }),
    dusty(
      'sand',
      'Wash and sand the hatch',
      'fairing',
      { fixed: 15, perM2: 30 },
      prepares('wash', 80),
    ),
    clean(
      'mask',
      'Vacuum, wipe and mask the borders',
      'finishing',
      { fixed: 15, perEdgeM: 6 },
      { splittable: false, ...alone, ...keptFor('base-coat') },
    ),
    wet(
      'base-coat',
      'Roll the base coat',
      'finishing',
      gelCoat,
      { fixed: 20, perM2: 12 },
      { ...alone, ...gelCoatUsed, coveredBy: ['key-for-grip-coat', 'grip-coat'] },
    ),
    ...grip.steps,
    wet(
      'grip-coat',
      'Roll the grip coat and scatter the grit',
      'finishing',
      finishCoat,
      { fixed: 25, perM2: 18 },
      { ...alone, ...mixes({ kind: 'coat', gramsPerM2: 400 }), bonding: 'cosmetic' },
    ),
    clean(
      'unmask',
      'Pull the tape',
      'finishing',
      { fixed: 10, perEdgeM: 2 },
      { splittable: false, ...alone },
    ),
    clean('refit', 'Bed and refit the fittings', 'joinery', { fixed: 120 }),
  ],
  links: [
    link('strip', 'sand'),
    link('sand', 'mask'),
    wiped('mask', 'base-coat'),
    ...grip.links,
    link('grip-coat', 'unmask', film('tacky-opens'), film('tack-free')),
    link('grip-coat', 'refit', film('handle')),
    link('unmask', 'refit'),
  ],
  choices: [grip.choice],
};
