import { expect, it } from 'vitest';
import { smallYard } from '../../testing/small-yard.ts';
import { materialSchema, type Material } from '../materials.ts';
import { consumableSchema } from '../procedures.ts';
import { yardFaults } from './check.ts';
import {
  both,
  coat,
  coatOne,
  mat,
  own,
  percent,
  refused,
  type Case,
  type Change,
} from './testing/refused.ts';
import { yardWarnings } from './warnings.ts';

const resin =
  (change: Partial<Material>): Change =>
  (yard) => {
    Object.assign(yard.materials[0], change);
  };
const MATERIALS: readonly Case[] = [
  [
    'a class that the catalogue lacks',
    resin({ classId: 'unobtainium' }),
    { code: 'yard.reference', path: 'materials[0].classId', value: 'unobtainium' },
  ],
  [
    'a class of another resin',
    resin({ classId: 'laminating-polyester' }),
    {
      code: 'input.field',
      path: 'materials[0].resinSystem',
      value: 'epoxy',
      message: 'Resin is epoxy, but its class "laminating-polyester" is polyester',
    },
  ],
  [
    'no class and no lowest temperature',
    resin({ minimumC: null }),
    {
      code: 'cure.missing',
      path: 'materials[0].minimumC',
      value: null,
      cure: 'Enter the line "lowest application temperature" of its data sheet, or name a class of the catalogue.',
    },
  ],
  [
    'no class and no highest temperature',
    resin({ maximumC: null }),
    { code: 'cure.missing', path: 'materials[0].maximumC', value: null },
  ],
  [
    'no class, and nothing of what cold does',
    resin({ belowMinimum: null }),
    { code: 'cure.missing', path: 'materials[0].belowMinimum', value: null },
  ],
  [
    'a milestone twice',
    (yard) => yard.materials[0].milestones.push(yard.materials[0].milestones[0]),
    { code: 'yard.duplicate', path: 'materials[0].milestones[6].milestone', value: 'pot-life' },
  ],
  [
    'a line without times',
    (yard) => (yard.materials[0].milestones[0].rows = []),
    {
      code: 'cure.missing',
      path: 'materials[0].milestones[0].rows',
      value: [],
      cure: 'Enter the times of "pot-life", or remove the line.',
    },
  ],
  [
    'a gel coat at one temperature only',
    (yard) => {
      const [gel] = yard.materials[0].milestones;
      yard.materials[0] = materialSchema.parse({
        ...yard.materials[0],
        resinSystem: 'polyester',
        use: 'gel-coat',
        milestones: [
          { ...gel, milestone: 'gel', rows: [{ celsius: 20, minutes: 30 }] },
          ...yard.materials[0].milestones,
        ],
      });
    },
    {
      code: 'cure.missing',
      path: 'materials[0].milestones[0].rows',
      value: [{ celsius: 20, minutes: 30 }],
      cure: 'Enter "gel" at a second temperature from the data sheet of Resin.',
    },
  ],
  [
    'a table and a rate model for one milestone',
    (yard) =>
      (yard.materials[0].milestones[0].conversion = {
        k1: { a: 0, e: 0 },
        k2: { a: 1e6, e: 55_000 },
        m: 0.5,
        n: 1.5,
        initial: 0.01,
        reached: 0.5,
      }),
    { code: 'input.field', path: 'materials[0].milestones[0].rows', value: 3 },
  ],
  [
    'a window that closes before it opens once merged with the class',
    (yard) => {
      // The class closes its window after five days whatever the temperature; this opens on day eight.
      const bondOpens = yard.materials[0].milestones[1];
      yard.materials[0] = materialSchema.parse({
        id: 'resin',
        name: 'Resin',
        resinSystem: 'polyester',
        classId: 'laminating-polyester',
        milestones: [
          { ...bondOpens, rows: [16, 24].map((celsius) => ({ celsius, minutes: 8 * 1440 })) },
          ...yard.materials[0].milestones.slice(3),
        ],
      });
    },
    { code: 'input.field', path: 'materials[0].milestones' },
  ],
  [
    'a table in degrees Fahrenheit',
    (yard) =>
      (yard.materials[0].milestones[0].rows = [
        { celsius: 59, minutes: 40 },
        { celsius: 77, minutes: 20 },
      ]),
    { code: 'cure.implausible', path: 'materials[0].milestones[0].rows[0].celsius', value: 59 },
  ],
  [
    'a lowest temperature in kelvin',
    resin({ minimumC: 200, maximumC: 200 }),
    { code: 'cure.implausible', path: 'materials[0].minimumC', value: 200 },
  ],
  [
    'a full cure in hours',
    (yard) =>
      yard.materials[0].milestones.push({
        ...yard.materials[0].milestones[5],
        milestone: 'cured',
        rows: [
          { celsius: 10, minutes: 29 },
          { celsius: 20, minutes: 24 },
        ],
      }),
    { code: 'cure.implausible', path: 'materials[0].milestones[6].rows[0].minutes', value: 29 },
  ],
  [
    'a humidity as a share of 1',
    resin({ maximumHumidity: own(0.8) }),
    { code: 'cure.implausible', path: 'materials[0].maximumHumidity.value', value: 0.8 },
  ],
  [
    'a density in kilograms to the cubic metre',
    resin({ mixedDensity: own(1150) }),
    { code: 'cure.implausible', path: 'materials[0].mixedDensity.value', value: 1150 },
  ],
  [
    'limits that leave out the temperature of a class’s time',
    (yard) => {
      yard.materials[0] = materialSchema.parse({
        ...yard.materials[0],
        classId: 'epoxy-slow',
        minimumC: 22,
        milestones: yard.materials[0].milestones.slice(0, -1),
      });
    },
    {
      code: 'input.field',
      path: 'materials[0].milestones',
      value: 21,
      message: expect.stringMatching(
        /^Resin, "[a-z-]+" of its class: Its time is that at 21 °C/,
      ) as string,
    },
  ],
  [
    'a power of mass that is none',
    resin({ massPower: own(20) }),
    { code: 'cure.implausible', path: 'materials[0].massPower.value', value: 20 },
  ],
  [
    'a spread of a time below 1',
    resin({ mixedDensity: { ...own(1.1), spread: 0.5 } }),
    { code: 'input.field', path: 'materials[0].mixedDensity.spread', value: 0.5 },
  ],
  [
    'more hardener than the sheet allows',
    percent({ usual: own(1.5), used: 3, block: { low: 1, high: 2.5 }, effect: own(0.8) }),
    {
      code: 'cure.hardener',
      path: 'materials[0].hardener.used',
      value: 3,
      message: 'Resin: 3 % of hardener is outside the 1 to 2.5 % that it allows',
    },
  ],
  [
    'another percentage than usual, of unknown effect',
    percent({ usual: own(1.5), used: 2, block: { low: 1, high: 2.5 } }),
    {
      code: 'cure.missing',
      path: 'materials[0].hardener.effect',
      value: null,
      cure: /effect of hardener on gel time/,
    },
  ],
  [
    'a percentage without the usual one',
    percent({ used: 2, block: { low: 1, high: 2.5 } }),
    { code: 'cure.missing', path: 'materials[0].hardener.usual', cure: /usual percentage/ },
  ],
  [
    'a percentage without its range',
    percent({ usual: own(20) }),
    { code: 'cure.missing', path: 'materials[0].hardener.block', cure: /least and greatest/ },
  ],
  [
    'cans that stand nowhere',
    resin({ keptIn: 'cellar' }),
    { code: 'yard.reference', path: 'materials[0].keptIn', value: 'cellar' },
  ],
  [
    'two fabrics of one id',
    both(mat, mat),
    { code: 'yard.duplicate', path: 'fabrics[1].id', value: 'mat' },
  ],
  [
    'two consumables of one id',
    (yard) => {
      const rag = consumableSchema.parse({
        id: 'rag',
        name: 'Rag',
        unit: 'pieces',
        of: 'wipe',
        perM2: 1,
        source: 'made up for tests',
      });
      yard.consumables.push(rag, rag);
    },
    { code: 'yard.duplicate', path: 'consumables[1].id', value: 'rag' },
  ],
];

refused('materials', MATERIALS);

it('a class under a material gives what the yard need not give again', () => {
  const classed: Change = (yard) => {
    yard.materials[0] = materialSchema.parse({
      id: 'resin',
      name: 'Resin',
      classId: 'epoxy-fast',
      resinSystem: 'epoxy',
      milestones: yard.materials[0].milestones.filter(({ milestone }) => milestone !== 'sandable'),
    });
  };
  expect(yardFaults(smallYard(both(classed, coatOne({ quantity: coat }))))).toEqual([]);
});

it('hardener outside its usual range is warned of', () => {
  const yard = smallYard(
    percent({
      usual: own(1.5),
      used: 2.2,
      warn: { low: 1, high: 2 },
      block: { low: 1, high: 2.5 },
      effect: own(0.8),
    }),
  );
  expect(yardFaults(yard)).toEqual([]);
  expect(yardWarnings(yard)).toContainEqual({
    path: 'materials[0].hardener',
    message: 'Resin is mixed with 2.2 % hardener, outside the usual 1 to 2 % (data sheet of Resin)',
    source: null,
  });
});
