import { describe, expect, it } from 'vitest';
import type { Problem } from '../model/problem.ts';
import { activity, kinds, mode, placed, problem } from '../testing/make.ts';

describe('air', () => {
  const yard = problem({
    spaces: [
      { id: 'bench', dustReaches: [0, 1], settling: 20, source: 'bench' },
      { id: 'booth', dustReaches: [], settling: 5, source: 'booth' },
    ],
    activities: [
      activity('sand', [mode({ duration: 30, space: 0, air: 'dusty' })]),
      activity('coat', [mode({ duration: 60, space: 1, air: 'wet' })]),
    ],
    surfaces: [{ activity: 1, until: { kind: 'constant', minutes: 100 }, source: 'film' }],
  });
  it.each([
    ['settled when the coat begins', 50, 100, []],
    ['one minute from settled', 51, 100, ['dust']],
    ['at the minute it is safe', 260, 100, []],
    ['one minute before it is safe', 259, 100, ['dust']],
    ['while it is spread', 110, 100, ['dust']],
  ])('%s', (_, sand, coat, expected) => {
    expect(
      kinds(yard, [placed(0, `${sand}-${sand + 30}`), placed(1, `${coat}-${coat + 60}`)]),
    ).toEqual(expected);
  });
  it('is not shared the other way, nor by work without a space', () => {
    const [sand, coat] = yard.activities;
    const swapped = (space: number | null): Problem => ({
      ...yard,
      activities: [
        { ...sand, modes: [{ ...sand.modes[0], space }] },
        { ...coat, modes: [{ ...coat.modes[0], space: 0 }] },
      ],
    });
    const both = [placed(0, '110-140'), placed(1, '100-160')];
    expect(kinds(swapped(1), both)).toEqual([]);
    expect(kinds(swapped(null), both)).toEqual([]);
    expect(kinds(swapped(0), both)).toEqual(['dust']);
  });
});
