import { describe, expect, it } from 'vitest';
import type { Calendar, CrewDemand, Problem } from '../model/problem.ts';
import { activity, builder, kinds, mode, placed, problem, single, work } from '../testing/make.ts';

const two: CrewDemand[] = [{ skill: 0, minLevel: 1, count: 2 }];
const calendar = (id: string, shifts: Calendar['shifts']): Calendar => ({
  id,
  shifts,
  breaks: [],
  overtime: [],
  source: id,
});

describe('time of one piece', () => {
  it.each([
    ['from the first minute of the shift to its last', '480-960', 480, 'relieved', []],
    ['a minute before the shift', '479-489', 10, 'relieved', ['shift']],
    ['a minute after the shift', '951-961', 10, 'relieved', ['shift']],
    ['through a relieved break', '700-800', 100, 'relieved', []],
    ['through an observed break', '700-800', 100, 'observed', ['shift']],
    ['up to an observed break', '620-720', 100, 'observed', []],
    ['from the end of an observed break', '750-850', 100, 'observed', []],
    ['a minute into an observed break', '621-721', 100, 'observed', ['shift']],
    ['from the last minute of an observed break', '749-849', 100, 'observed', ['shift']],
    ['across the night', '900-2000', 1100, 'relieved', ['shift']],
    ['a minute short', '500-599', 100, 'relieved', ['duration']],
    ['a minute long', '500-601', 100, 'relieved', ['duration']],
    ['in two pieces', '500-550 550-600', 100, 'relieved', ['segments']],
  ] as const)('%s', (_, spans, minutes, breaks, expected) => {
    expect(kinds(single(work(minutes, { breaks })), [placed(0, spans, [0])])).toEqual(expected);
  });

  it('rounds the work up and keeps the floor', () => {
    expect(kinds(single(work(0, { work: 1001 })), [placed(0, '500-511', [0])])).toEqual([]);
    expect(kinds(single(work(0, { work: 1001 })), [placed(0, '500-510', [0])])).toEqual([
      'duration',
    ]);
    expect(kinds(single(work(10, { floor: 30 })), [placed(0, '500-530', [0])])).toEqual([]);
    expect(kinds(single(work(10, { floor: 30 })), [placed(0, '500-529', [0])])).toEqual([
      'duration',
    ]);
  });

  it('is the duration of the mode where there is no crew, at any hour', () => {
    expect(kinds(single(mode({ duration: 30, work: 100 })), [placed(0, '0-30')])).toEqual([]);
    expect(kinds(single(mode({ duration: 30, work: 100 })), [placed(0, '0-29')])).toEqual([
      'duration',
    ]);
  });

  it('counts the speed in the skill served', () => {
    const abilities = [
      { skill: 1, level: 1, speed: 300, needsSenior: false },
      { skill: 0, level: 1, speed: 50, needsSenior: false },
    ];
    const of = { ...single(work(60)), builders: [builder('Ada', { abilities })] };
    expect(kinds(of, [placed(0, '500-620', [0])])).toEqual([]);
    expect(kinds(of, [placed(0, '500-520', [0])])).toEqual(['duration']);
  });

  it('has no segment where there is no time', () => {
    expect(kinds(single(mode()), [placed(0, '7-7')])).toEqual([]);
    expect(kinds(single(mode({ splittable: true })), [placed(0, '7-7')])).toEqual([]);
    expect(kinds(single(mode({ splittable: true })), [placed(0, '7-8')])).toEqual(['duration']);
  });

  it('has its clean-down in the same shift, with the same breaks, no part of the work', () => {
    const wet = (breaks: 'relieved' | 'observed'): Problem =>
      single(work(100, { cleanDown: 15, breaks }));
    expect(kinds(wet('observed'), [placed(0, '845-945', [0])])).toEqual([]);
    expect(kinds(wet('observed'), [placed(0, '846-946', [0])])).toEqual(['clean-down']);
    expect(kinds(wet('observed'), [placed(0, '605-705', [0])])).toEqual([]);
    expect(kinds(wet('observed'), [placed(0, '606-706', [0])])).toEqual(['clean-down']);
    expect(kinds(wet('relieved'), [placed(0, '606-706', [0])])).toEqual([]);
    expect(kinds(wet('observed'), [placed(0, '500-615', [0])])).toEqual(['duration']);
    expect(kinds(wet('observed'), [placed(0, '500-600 600-615', [0])])).toEqual([
      'segments',
      'duration',
    ]);
  });
});

describe('time that pauses', () => {
  const sanding = single(work(300, { splittable: true }));
  it.each([
    ['over a break', '480-720 750-810', []],
    ['over a break and the night', '690-720 750-960 1920-1980', []],
    ['not over the break', '480-780', ['segments', 'duration', 'shift']],
    ['a working minute left out', '480-719 750-811', ['segments', 'duration']],
    ['a pause of its own', '480-500 501-720 750-811', ['segments', 'duration']],
    ['begun in the break', '720-721 750-960 1920-2010', ['segments', 'shift']],
    ['a minute short', '480-720 750-809', ['duration']],
    ['cut where nobody pauses', '480-500 500-720 750-810', ['segments']],
  ] as const)('%s', (_, spans, expected) => {
    expect(kinds(sanding, [placed(0, spans, [0])])).toEqual(expected);
  });

  it('starts with its first minute of work and finishes with its last', () => {
    const whole = placed(0, '750-960 1920-2010', [0]);
    expect(kinds(sanding, [whole])).toEqual([]);
    expect(kinds(sanding, [{ ...whole, start: 749 }])).toEqual(['segments']);
    const night = placed(0, '480-720 750-810', [0]);
    const shorter = single(work(450, { splittable: true }));
    expect(kinds(shorter, [placed(0, '480-720 750-960', [0])])).toEqual([]);
    expect(kinds(shorter, [placed(0, '480-720 750-960', [0], { finish: 961 })])).toEqual([
      'segments',
    ]);
    expect(kinds(sanding, [{ ...night, finish: 811 }])).toEqual(['segments', 'duration']);
    expect(kinds(sanding, [placed(0, '480-720', [0], { finish: 810 })])).toEqual(['segments']);
  });

  it('works when both of two work, at the sum of their speeds', () => {
    const of = problem({
      calendars: [...problem().calendars, calendar('late', [{ start: 600, end: 1000 }])],
      builders: [
        builder('Ada'),
        builder('Bo', {
          calendar: 1,
          abilities: [{ skill: 0, level: 1, speed: 50, needsSenior: false }],
        }),
      ],
      activities: [activity('A', [{ ...work(300, { splittable: true }), crew: two }])],
    });
    expect(kinds(of, [placed(0, '600-720 750-830', [0, 1])])).toEqual([]);
    expect(kinds(of, [placed(0, '599-720 750-829', [0, 1])])).toEqual([
      'segments',
      'duration',
      'shift',
    ]);
  });
});
