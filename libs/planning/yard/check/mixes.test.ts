import { expect, it } from 'vitest';
import { stepSchema } from '../procedures.ts';
import { both, coat, coatOne, laminate, mat, part, refused, type Case } from './testing/refused.ts';

const step = 'procedures[0].steps[1]';
const STEPS: readonly Case[] = [
  [
    'a hold until a milestone that nobody has a number for',
    (yard) => (yard.procedures[0].links[2].opens = { kind: 'milestone', milestone: 'handle' }),
    {
      code: 'cure.missing',
      path: 'procedures[0].links[2].opens.milestone',
      value: 'handle',
      message:
        'the data sheet of Resin has no line "handle", which a link from Coat one waits for; its lines: pot-life, bond-opens, bond-closes, tack-free, dust-safe, sandable',
      cure: 'Enter "time until clamps come off or it may be handled" of its data sheet as the line "handle" of Resin, or use another material or milestone.',
    },
  ],
  [
    'plies of a fabric that is not there',
    coatOne({ quantity: laminate('mat') }),
    { code: 'yard.reference', path: `${step}.quantity.plies[0].fabric`, value: 'mat' },
  ],
  [
    'mat in epoxy whose binder only styrene dissolves, on whatever it is laid',
    both(mat, coatOne({ quantity: laminate('mat') }), (yard) => {
      yard.fabrics[0].binder = 'styrene-soluble';
    }),
    {
      code: 'cure.bond',
      path: `${step}.quantity.plies[0].fabric`,
      value: 'mat',
      message:
        'Coat one lays Mat in Resin: The binder of this mat is dissolved by styrene, and epoxy has none: it would not wet out. Use a stitched, woven or powder-bound fabric. (suppliers’ pages on chopped strand mat and epoxy)',
    },
  ],
  [
    'a coat of no coverage',
    coatOne({ quantity: coat }),
    {
      code: 'cure.missing',
      path: `${step}.quantity.gramsPerM2`,
      value: null,
      message: 'Coat one cannot be weighed: Resin has no coverage, grams per square metre and coat',
    },
  ],
  [
    'a filling of no density',
    coatOne({ quantity: { kind: 'fill', mm: 2, wastePercent: 0 } }),
    { code: 'cure.missing', path: `${step}.quantity.kind`, value: null },
  ],
  [
    'a quantity of nothing',
    (yard) => (yard.procedures[0].steps[0].quantity = { ...coat, gramsPerM2: 100 }),
    { code: 'input.field', path: 'procedures[0].steps[0].quantity' },
  ],
  [
    'a coat on a part of no area',
    both(coatOne({ quantity: { ...coat, gramsPerM2: 100 } }), part({ areaM2: 0 })),
    {
      code: 'input.field',
      path: 'boats[0].refits[0].parts[0].areaM2',
      value: 0,
      message: 'Lid has no area, and Coat one of lid is weighed by it',
    },
  ],
  [
    'tabbing without joints',
    both(
      mat,
      coatOne({
        quantity: { kind: 'tabbing', plies: [{ fabric: 'mat', widthMm: 100 }], wastePercent: 0 },
      }),
    ),
    { code: 'input.field', path: 'boats[0].refits[0].parts[0].jointM', value: 0 },
  ],
  [
    'a glue line without edges',
    coatOne({ quantity: { kind: 'glue-line', widthMm: 20, gramsPerM2: 370, wastePercent: 0 } }),
    { code: 'input.field', path: 'boats[0].refits[0].parts[0].edgeM', value: 0 },
  ],
  [
    'one batch of nobody knows how much',
    coatOne({ oneBatch: true }),
    { code: 'input.field', path: `${step}.oneBatch`, value: true },
  ],
  [
    'one batch of a material without a pot life',
    both(coatOne({ oneBatch: true, quantity: { ...coat, gramsPerM2: 100 } }), (yard) => {
      yard.materials[0].milestones = yard.materials[0].milestones.slice(1);
    }),
    { code: 'cure.missing', path: `${step}.oneBatch`, value: 'pot-life', cure: /pot life/ },
  ],
  [
    'a coat that prepares what it lies on',
    coatOne({ prepares: [{ kind: 'wipe', grit: null, mm: null, passes: 1 }] }),
    { code: 'input.field', path: `${step}.prepares` },
  ],
  [
    'a wipe with a grit',
    (yard) =>
      (yard.procedures[0].steps[0].prepares = [{ kind: 'wipe', grit: 80, mm: null, passes: 1 }]),
    { code: 'input.field', path: 'procedures[0].steps[0].prepares[0].grit', value: 80 },
  ],
  [
    'a wash that takes something off',
    (yard) =>
      (yard.procedures[0].steps[0].prepares = [{ kind: 'wash', grit: null, mm: 1, passes: 1 }]),
    { code: 'input.field', path: 'procedures[0].steps[0].prepares[0].mm', value: 1 },
  ],
];

refused('mixes', STEPS);

it('a step of the old yard file reads as one that weighs and prepares nothing', () => {
  const { quantity, oneBatch, prepares, bonding } = stepSchema.parse({
    id: 'old',
    name: 'Old',
    effort: { source: 'test' },
    skill: 'sanding',
    crewMin: 1,
    crewMax: 1,
    air: 'dusty',
    splittable: true,
  });
  expect({ quantity, oneBatch, prepares, bonding }).toEqual({
    quantity: null,
    oneBatch: false,
    prepares: [],
    bonding: 'structural',
  });
});
