import { describe, expect, it } from 'vitest';
import { activity, builder, kinds, placed, plan, problem, single, work } from '../testing/make.ts';
import { check } from './check.ts';

describe('people', () => {
  const pair = problem({
    builders: [builder('Ada'), builder('Bo', { abilities: [{ skill: 1, level: 3, speed: 100 }] })],
    activities: [activity('A', [work(60)]), activity('B', [work(60)])],
  });
  it('follow one another without a gap', () => {
    expect(kinds(pair, [placed(0, '500-560', [0]), placed(1, '560-620', [0])])).toEqual([]);
    expect(kinds(pair, [placed(0, '500-560', [0]), placed(1, '559-619', [0])])).toEqual([
      'crew-twice',
    ]);
  });
  it('have the skill', () => {
    expect(kinds(pair, [placed(0, '500-560', [1]), placed(1, '560-620', [0])])).toEqual([
      'crew-skill',
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
    const two = single({ ...work(60), crew: [{ skill: 0, minLevel: 1, count: 2 }] });
    expect(kinds(two, [placed(0, '500-530', [0, 0])])).toEqual(['crew-twice']);
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
      id: 'late',
      shifts: [
        { start: 480, end: 600 },
        { start: 700, end: 900 },
      ],
      breaks: [],
    };
    const two = {
      ...work(0, { work: 26000, splittable: true }),
      crew: [{ skill: 0, minLevel: 1, count: 2 }],
    };
    const of = problem({
      calendars: [...problem().calendars, late],
      builders: [builder('Ada'), builder('Bo', { calendar: 1 })],
      activities: [activity('A', [two]), activity('B', [work(100)])],
    });
    const split = placed(0, '490-600 700-720', [0, 1]);
    expect(kinds(of, [split, placed(1, '600-700', [0])])).toEqual([]);
    expect(kinds(of, [split, placed(1, '601-701', [0])])).toEqual(['crew-twice']);
  });
});
