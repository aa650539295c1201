import { expect, it } from 'vitest';
import { DomainError, type Fault } from '#kernel/error.ts';
import { futureFaults } from '../questions/future.ts';
import { smallYard } from '../testing/small-yard.ts';
import { readingSchema } from './observed.ts';
import { readYard } from './read.ts';
import type { Yard } from './yard.ts';

/** Written as anyone may have written it: some fields are not what their types say. */
type Change = (draft: Yard) => void;

/** Each mistake gives one fault, whatever else might follow from it. */
function only(change: Change): Fault {
  const draft = JSON.parse(JSON.stringify(smallYard())) as Yard;
  change(draft);
  try {
    readYard(draft, 'test.json');
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    expect(error.faults).toHaveLength(1);
    return error.faults[0];
  }
  throw new Error('It was accepted');
}

const figure = (value: number) => ({ value, source: 'made up for tests' });
const hardener =
  (given: object): Change =>
  (draft) => {
    const sheet = { kind: 'percent', usual: figure(1.5), effect: figure(0.8), ...given };
    Object.assign(draft.materials[0], { hardener: sheet });
  };
const at = '2026-11-01T08:00:00Z';
const reading =
  (...given: readonly object[]): Change =>
  (draft) => {
    const readings = given.map((one, k) => ({
      id: `r${String(k)}`,
      space: 'shop',
      at,
      celsius: 18,
      ...one,
    }));
    Object.assign(draft, { readings });
  };
const READING = 'readings[0].celsius';

it.each<[string, Change, string, string, unknown, RegExp]>([
  [
    'hardener outside its range',
    hardener({ used: 3, block: { low: 1, high: 2.5 } }),
    'cure.hardener',
    'materials[0].hardener.used',
    3,
    /^Mix 1 to 2\.5 % by mass of the resin/,
  ],
  // Drops to the ounce for 1 % are 4, 6.7 or 10, by whom one asks (speedyauto, Bottom Paint Store,
  // BoatCraft; read): they are refused, grams are weighed.
  [
    'hardener in drops',
    hardener({ drops: 10 }),
    'input.field',
    'materials[0].hardener.drops',
    10,
    /^Remove it/,
  ],
  [
    'a range of hardener the wrong way round',
    hardener({ block: { low: 2.5, high: 1 } }),
    'input.field',
    'materials[0].hardener.block',
    { low: 2.5, high: 1 },
    /./,
  ],
  [
    'a reading in degrees Fahrenheit',
    reading({ celsius: 68 }),
    'cure.implausible',
    READING,
    68,
    /20\.0 °C/,
  ],
  [
    'a reading in kelvin',
    reading({ celsius: 293 }),
    'input.field',
    READING,
    293,
    /kelvin, it is 19\.9 °C/,
  ],
  [
    'a humidity as a share of 1',
    reading({ humidity: 0.6 }),
    'input.field',
    'readings[0].humidity',
    0.6,
    /it is 60 %/,
  ],
  [
    'an unknown milestone',
    (draft) => {
      Object.assign(draft.procedures[0].links[1], {
        opens: { kind: 'milestone', milestone: 'sticky' },
      });
    },
    'input.field',
    'procedures[0].links[1].opens.milestone',
    'sticky',
    /^Write one of "pot-life"/,
  ],
  [
    'readings that overlap',
    reading({ minutes: 60 }, { at: '2026-11-01T08:30:00Z' }),
    'cure.reading',
    'readings[1].at',
    '2026-11-01T08:30:00Z',
    /^Leave one of the two out/,
  ],
  [
    'a part of no area that is coated by the square metre',
    (draft) => {
      const quantity = { kind: 'coat', gramsPerM2: 300 };
      for (const k of [1, 3]) Object.assign(draft.procedures[0].steps[k], { quantity });
      draft.boats[0].refits[0].parts[0].areaM2 = 0;
    },
    'input.field',
    'boats[0].refits[0].parts[0].areaM2',
    0,
    /^Give the area/,
  ],
  [
    'limits the wrong way round, with the times of a class',
    (draft) => {
      Object.assign(draft.materials[0], { classId: 'epoxy-slow', minimumC: null, maximumC: 10 });
    },
    'input.field',
    'materials[0].minimumC',
    16,
    /^Correct one of the two/,
  ],
])('%s', (_, change, code, path, value, cure) => {
  const found = only(change);
  expect(found).toMatchObject({ code, path, value });
  expect(found.cure).toMatch(cure);
});

it('a reading that ends after the clock', () => {
  const yard = smallYard((draft) => {
    draft.readings = [
      readingSchema.parse({ id: 'r', space: 'shop', at, minutes: 60, celsius: 18 }),
    ];
  });
  expect(futureFaults(yard, '2026-11-01T09:00:00Z')).toEqual([]);
  expect(futureFaults(yard, '2026-11-01T08:59:00Z')).toMatchObject([
    { code: 'cure.reading', path: 'readings[0].at', value: at },
  ]);
});
