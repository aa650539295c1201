import { describe, expect, it } from 'vitest';
import { type Beginnings, needs } from './missing.ts';

const nothing: Beginnings = {
  people: [],
  spaces: [],
  procedures: [],
  skills: [],
  boats: [],
  isPublished: false,
};
const shift = { weekday: 1, from: '08:00', to: '16:00', breaks: [] };
const able = (skill: string) => ({ skill, level: 2, speed: 100 });
const open = (yard: Beginnings): string[] =>
  needs(yard)
    .filter(({ isDone }) => !isDone)
    .map(({ what }) => what);

describe('what is missing before the first plan', () => {
  it('is everything in an empty yard', () => {
    expect(open(nothing)).toEqual([
      'spaces',
      'builder',
      'procedures',
      'skills',
      'boats',
      'parts',
      'plan',
    ]);
  });

  it('names builders without hours, and skills that nobody who builds has', () => {
    const yard: Beginnings = {
      ...nothing,
      people: [
        { name: 'Ada', roles: ['builder'], shifts: [], abilities: [able('cut')] },
        { name: 'Own', roles: ['owner'], shifts: [shift], abilities: [able('coat')] },
      ],
      skills: [{ id: 'coat', name: 'Coating' }],
      procedures: [{ steps: [{ skill: 'cut' }, { skill: 'coat' }, { skill: null }, {}] }],
    };
    const byWhat = new Map(needs(yard).map((need) => [need.what, need]));
    expect(byWhat.get('builder')).toMatchObject({ isDone: false, names: ['Ada'] });
    expect(byWhat.get('skills')).toMatchObject({ isDone: false, names: ['Coating'] });
  });

  it('goes one by one', () => {
    const yard: Beginnings = {
      ...nothing,
      people: [{ name: 'Ada', roles: ['builder'], shifts: [shift], abilities: [able('cut')] }],
      spaces: [{}],
      procedures: [{ steps: [{ skill: 'cut' }] }],
      boats: [{ refits: [{ parts: [{ jobs: [] }] }] }],
    };
    expect(open(yard)).toEqual(['parts', 'plan']);
    expect(
      open({ ...yard, boats: [{ refits: [{ parts: [{ jobs: [{}] }] }] }], isPublished: true }),
    ).toEqual([]);
  });
});
