import { expect, it } from 'vitest';
import { smallYard } from '../../testing/small-yard.ts';
import { layerSchema } from '../boats.ts';
import { observationSchema, readingSchema } from '../observed.ts';
import { climateChangeSchema, type ClimateChange } from '../spaces.ts';
import { yardFaults } from './check.ts';
import {
  both,
  coatOne,
  laminate,
  mat,
  part,
  percent,
  own,
  refused,
  type Case,
  type Change,
} from './testing/refused.ts';

const change =
  (given: Partial<ClimateChange> & Pick<ClimateChange, 'kind'>): Change =>
  (yard) => {
    yard.spaces[0].changes.push(
      climateChangeSchema.parse({
        id: `change-${String(yard.spaces[0].changes.length)}`,
        name: 'Thing',
        from: '2026-11-02T08:00:00Z',
        to: '2026-11-04T08:00:00Z',
        ...given,
      }),
    );
  };
const reading =
  (id: string, at: string, given: object = {}): Change =>
  (yard) => {
    yard.readings.push(readingSchema.parse({ id, space: 'shop', at, celsius: 18, ...given }));
  };
const observation =
  (given: object): Change =>
  (yard) => {
    yard.observations.push(
      observationSchema.parse({
        id: 'seen',
        material: 'resin',
        milestone: 'sandable',
        found: 'already',
        space: 'shop',
        laidAt: '2026-11-01T08:00:00Z',
        at: '2026-11-02T08:00:00Z',
        ...given,
      }),
    );
  };
const OBSERVED: readonly Case[] = [
  [
    'a reading of a space that is not there',
    reading('r', '2026-11-01T08:00:00Z', { space: 'attic' }),
    { code: 'yard.reference', path: 'readings[0].space', value: 'attic' },
  ],
  [
    'two readings of one id',
    both(reading('r', '2026-11-01T08:00:00Z'), reading('r', '2026-11-01T09:00:00Z')),
    { code: 'yard.duplicate', path: 'readings[1].id', value: 'r' },
  ],
  [
    'readings that overlap',
    both(
      reading('a', '2026-11-01T08:00:00Z', { minutes: 60 }),
      reading('b', '2026-11-01T08:30:00Z'),
    ),
    { code: 'cure.reading', path: 'readings[1].at', value: '2026-11-01T08:30:00Z' },
  ],
  [
    'a reading in degrees Fahrenheit',
    reading('a', '2026-11-01T08:00:00Z', { celsius: 68 }),
    { code: 'cure.implausible', path: 'readings[0].celsius', value: 68 },
  ],
  [
    'an observation of an unknown material',
    observation({ material: 'tar' }),
    { code: 'yard.reference', path: 'observations[0].material', value: 'tar' },
  ],
  [
    'an observation in an unknown space',
    observation({ space: 'attic' }),
    { code: 'yard.reference', path: 'observations[0].space', value: 'attic' },
  ],
  [
    'an observation before the film was laid',
    observation({ at: '2026-11-01T07:59:00Z' }),
    { code: 'input.field', path: 'observations[0].at', value: '2026-11-01T07:59:00Z' },
  ],
  [
    'grams of a film',
    observation({ grams: 100 }),
    { code: 'input.field', path: 'observations[0].grams', value: 100 },
  ],
  [
    'an observation with more hardener than the sheet allows',
    both(
      percent({ usual: own(1.5), block: { low: 1, high: 2.5 }, effect: own(0.8) }),
      observation({ hardenerPercent: 3 }),
    ),
    {
      code: 'cure.hardener',
      path: 'observations[0].hardenerPercent',
      value: 3,
      message: 'seen: Resin: 3 % of hardener is outside the 1 to 2.5 % that it allows',
    },
  ],
  [
    'an observation with hardener of unknown effect',
    both(
      percent({ usual: own(1.5), block: { low: 1, high: 2.5 } }),
      observation({ hardenerPercent: 2 }),
    ),
    { code: 'cure.missing', path: 'observations[0].hardenerPercent', value: 2 },
  ],
  [
    'an observation with a percentage of what is mixed in a ratio',
    both(
      (yard) => (yard.materials[0].hardener = { kind: 'ratio', per100: own(20) }),
      observation({ hardenerPercent: 2 }),
    ),
    { code: 'input.field', path: 'observations[0].hardenerPercent', value: 2 },
  ],
  [
    'two observations of one id',
    both(observation({}), observation({})),
    { code: 'yard.duplicate', path: 'observations[1].id', value: 'seen' },
  ],
];

const CLIMATES: readonly Case[] = [
  [
    'a heater that is off before it is on',
    change({ kind: 'heater', celsius: 20, to: '2026-11-02T08:00:00Z' }),
    { code: 'input.field', path: 'spaces[0].changes[0].to' },
  ],
  [
    'a heater that keeps no temperature',
    change({ kind: 'heater' }),
    { code: 'input.field', path: 'spaces[0].changes[0].celsius', value: null },
  ],
  [
    'a tent that keeps a humidity',
    change({ kind: 'tent', lagHours: 2, percent: 50 }),
    {
      code: 'input.field',
      path: 'spaces[0].changes[0].percent',
      value: 50,
      message: 'Thing is a tent, which has no percent',
    },
  ],
  [
    'a dehumidifier with a flame',
    change({ kind: 'dehumidifier', percent: 60, unvented: true }),
    { code: 'input.field', path: 'spaces[0].changes[0].unvented', value: true },
  ],
  [
    'two changes of one id',
    both(
      change({ kind: 'heater', celsius: 20, id: 'x' }),
      change({ kind: 'heater', celsius: 20, id: 'x' }),
    ),
    { code: 'yard.duplicate', path: 'spaces[0].changes[1].id', value: 'x' },
  ],
  [
    'a set-point in degrees Fahrenheit',
    (yard) => {
      const { climate } = yard.spaces[0];
      if (climate.kind === 'heated') climate.setPoints[0].celsius = 68;
    },
    { code: 'cure.implausible', path: 'spaces[0].climate.setPoints[0].celsius', value: 68 },
  ],
  [
    'more power than the yard has',
    both(
      change({ kind: 'heater', celsius: 20, watts: 3000 }),
      change({ kind: 'heater', celsius: 22, watts: 2000 }),
      (yard) => (yard.powerWatts = 4000),
    ),
    { code: 'input.field', path: 'spaces[0].changes[1].watts', value: 2000 },
  ],
  [
    'fewer humidities than temperatures',
    (yard) =>
      (yard.outdoor = {
        from: '2026-11-02T08:00:00Z',
        celsius: [8, 9],
        humidity: [80],
        source: 'made up for tests',
      }),
    { code: 'input.field', path: 'outdoor.humidity', value: 1 },
  ],
  [
    'moisture that follows an outdoors of which nothing is known',
    (yard) => (yard.spaces[0].humidity = { kind: 'outdoors', addsHPa: 1 }),
    { code: 'yard.reference', path: 'spaces[0].humidity', value: 'outdoors' },
  ],
];

const epoxy = layerSchema.parse({ base: 'epoxy', surface: 'sealed' });
const LAYERS: readonly Case[] = [
  [
    'a layer of an unknown material',
    part({ layers: [{ ...epoxy, material: 'tar' }] }),
    {
      code: 'yard.reference',
      path: 'boats[0].refits[0].parts[0].layers[0].material',
      value: 'tar',
    },
  ],
  [
    'a layer of another base than its material',
    part({ layers: [{ ...epoxy, base: 'polyester', material: 'resin' }] }),
    {
      code: 'input.field',
      path: 'boats[0].refits[0].parts[0].layers[0].base',
      value: 'polyester',
    },
  ],
  [
    'a layer older than what it lies on',
    part({ layers: [{ ...epoxy, laidAt: '2026-10-02T08:00:00Z' }, epoxy] }),
    { code: 'input.field', path: 'boats[0].refits[0].parts[0].layers[1].laidAt', value: null },
  ],
];

refused('readings and observations', OBSERVED);
refused('climates', CLIMATES);
refused('layers', LAYERS);

it('a yard is accepted with quantities that can be weighed, readings, observations, changes and layers', () => {
  const yard = smallYard(
    both(
      mat,
      coatOne({ quantity: laminate('mat'), oneBatch: true }),
      percent({ usual: own(2), block: { low: 1, high: 2.5 } }),
      reading('a', '2026-11-01T08:00:00Z', { minutes: 60 }),
      reading('b', '2026-11-01T09:00:00Z'),
      observation({ milestone: 'pot-life', grams: 100 }),
      change({ kind: 'heater', celsius: 20, watts: 3000, unvented: true }),
      change({ kind: 'tent', lagHours: 4 }),
      (draft) => (draft.powerWatts = 3000),
      part({ layers: [{ ...epoxy, base: 'wood', surface: 'bare' }, epoxy] }),
    ),
  );
  expect(yardFaults(yard)).toEqual([]);
});
