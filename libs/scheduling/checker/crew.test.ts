import { describe, expect, it } from 'vitest';
import type { Ability, Builder, CrewDemand, Problem } from '../model/problem.ts';
import { activity, builder, kinds, placed, plan, problem, single, work } from '../testing/make.ts';
import { check } from './check.ts';

const can = (skill: number, level: number, needsSenior = false): Ability => ({
  skill,
  level,
  speed: 100,
  needsSenior,
});
const heads = (count: number): CrewDemand[] => [{ skill: 0, minLevel: 1, count }];

describe('people', () => {
  const pair = problem({
    builders: [builder('Ada'), builder('Bo', { abilities: [can(1, 3)] })],
    activities: [activity('A', [work(60)]), activity('B', [work(60)])],
  });
  it('follow one another without a gap', () => {
    expect(kinds(pair, [placed(0, '500-560', [0]), placed(1, '560-620', [0])])).toEqual([]);
    const over = plan(pair, [placed(0, '500-560', [0]), placed(1, '559-619', [0])]);
    expect(check(pair, over)).toMatchObject([
      { kind: 'crew-twice', activities: [0, 1], constraint: { kind: 'builder', builder: 0 } },
    ]);
  });
  it('are in several places only where it is asked what that would change', () => {
    const of = { ...pair, builders: [builder('Ada', { unlimited: true })] };
    expect(kinds(of, [placed(0, '500-560', [0]), placed(1, '500-560', [0])])).toEqual([]);
    const two = { ...single(work(60, { crew: heads(2) })), builders: of.builders };
    expect(kinds(two, [placed(0, '500-530', [0, 0])])).toEqual(['crew-twice']);
  });
  it('clean down before they go on', () => {
    const of = problem({
      activities: [activity('A', [work(60, { cleanDown: 10 })]), activity('B', [work(60)])],
    });
    expect(kinds(of, [placed(0, '500-560', [0]), placed(1, '570-630', [0])])).toEqual([]);
    expect(kinds(of, [placed(0, '500-560', [0]), placed(1, '569-629', [0])])).toEqual([
      'crew-twice',
    ]);
  });
  it('have the skill at the level', () => {
    expect(kinds(pair, [placed(0, '500-560', [1]), placed(1, '560-620', [0])])).toEqual([
      'crew-skill',
    ]);
    const of = (level: number): Problem => ({
      ...single(work(60, { crew: [{ skill: 0, minLevel: 3, count: 1 }] })),
      builders: [builder('Ada', { abilities: [can(1, 9), can(0, level)] })],
    });
    expect(kinds(of(3), [placed(0, '500-560', [0])])).toEqual([]);
    const found = check(of(2), plan(of(2), [placed(0, '500-560', [0])]));
    expect(found).toMatchObject([
      { kind: 'crew-skill', constraint: { kind: 'crew', activity: 0 } },
    ]);
  });
  it('are as many as asked for, each once', () => {
    expect(kinds(pair, [placed(0, '500-560'), placed(1, '560-620', [0])])).toEqual(['crew-count']);
    expect(kinds(single(work(60)), [placed(0, '500-530', [0, 1])])).toEqual(['crew-count']);
    const bystander = placed(0, '500-560', [0]);
    expect(
      kinds(single(work(60)), [
        { ...bystander, crew: [...bystander.crew, { builder: 1, demand: 1 }] },
      ]),
    ).toEqual(['crew-count']);
    const two = single(work(60, { crew: heads(2) }));
    expect(check(two, plan(two, [placed(0, '500-530', [0, 0])]))).toMatchObject([
      { kind: 'crew-twice', constraint: { kind: 'crew', activity: 0 } },
    ]);
  });
  it('are named with everything that overlaps a longer work', () => {
    const three = problem({
      activities: [
        activity('A', [work(100)]),
        activity('B', [work(10)]),
        activity('C', [work(10)]),
      ],
    });
    const long = placed(0, '500-600', [0]);
    const found = check(
      three,
      plan(three, [long, placed(1, '510-520', [0]), placed(2, '550-560', [0])]),
    );
    expect(found.map((violation) => violation.activities)).toEqual([
      [0, 1],
      [0, 2],
    ]);
  });
  it('may do something else in a pause of split work', () => {
    const late = {
      ...problem().calendars[0],
      id: 'late',
      shifts: [
        { start: 480, end: 600 },
        { start: 700, end: 900 },
      ],
      breaks: [],
    };
    const of = problem({
      calendars: [...problem().calendars, late],
      builders: [builder('Ada'), builder('Bo', { calendar: 1 })],
      activities: [
        activity('A', [work(0, { work: 26000, splittable: true, crew: heads(2) })]),
        activity('B', [work(100)]),
      ],
    });
    const split = placed(0, '490-600 700-720', [0, 1]);
    expect(kinds(of, [split, placed(1, '600-700', [0])])).toEqual([]);
    expect(kinds(of, [split, placed(1, '601-701', [0])])).toEqual(['crew-twice']);
  });
});

describe('learners', () => {
  const team = (...abilities: readonly (readonly Ability[])[]): Builder[] =>
    abilities.map((own, i) => builder(`b${i}`, { abilities: own }));
  const beside = (builders: readonly Builder[], demand = 0): string[] =>
    kinds(
      {
        ...single(
          work(60, {
            crew: [
              { skill: 0, minLevel: 1, count: demand === 0 ? 2 : 1 },
              ...(demand === 0 ? [] : [{ skill: 1, minLevel: 1, count: 1 }]),
            ],
          }),
        ),
        builders,
      },
      [
        placed(0, '500-530', [], {
          crew: [
            { builder: 0, demand: 0 },
            { builder: 1, demand },
          ],
        }),
      ],
    );
  it('have somebody of a higher level in the skill beside', () => {
    expect(beside(team([can(0, 1, true)], [can(0, 2)]))).toEqual([]);
    expect(beside(team([can(0, 2, true)], [can(0, 2)]))).toEqual(['senior']);
    expect(beside(team([can(0, 2)], [can(0, 1, true)]))).toEqual([]);
    expect(beside(team([can(0, 1)], [can(0, 1)]))).toEqual([]);
  });
  it('may learn from whoever serves another demand, in the skill that they serve', () => {
    expect(beside(team([can(0, 1, true)], [can(1, 1), can(0, 2)]), 1)).toEqual([]);
    expect(beside(team([can(0, 1, true)], [can(1, 9), can(0, 1)]), 1)).toEqual(['senior']);
    expect(beside(team([can(0, 3), can(1, 1, true)], [can(1, 2, false)]), 1)).toEqual([]);
  });
  it('do not work alone, nor under another learner who has nobody', () => {
    const alone = { ...single(work(60)), builders: team([can(0, 1, true)], [can(0, 5)]) };
    expect(check(alone, plan(alone, [placed(0, '500-560', [0])]))).toMatchObject([
      { kind: 'senior', activities: [0], constraint: { kind: 'crew', activity: 0 } },
    ]);
    expect(kinds(alone, [placed(0, '500-560', [1])])).toEqual([]);
    expect(beside(team([can(0, 1, true)], [can(0, 2, true)]))).toEqual(['senior']);
  });
  it('may have worked alone', () => {
    const happened = { kind: 'frozen', start: 0, finish: 5, builders: [0] } as const;
    const of = { ...single(work(60), happened), builders: team([can(0, 1, true)]) };
    expect(kinds(of, [placed(0, '0-5', [0])])).toEqual([]);
  });
});
