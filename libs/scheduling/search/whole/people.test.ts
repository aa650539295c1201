import { describe, expect, it } from 'vitest';
import type { Problem } from '../../model/problem.ts';
import { activity, builder, lag, mode, work } from '../../testing/make.ts';
import { always, best, decide, hour, refit, starts } from './testing/hour.ts';

describe('time', () => {
  it('starts late where a window closes after a fixed moment', () => {
    // B is set at 30 and has to start no later than 5 after A has finished: A, of 4 minutes,
    // cannot start before 21, though nothing else keeps it from 0.
    const of = hour({
      activities: [
        activity('A', [mode({ duration: 4 })]),
        activity('B', [mode({ duration: 1 })], {
          fixed: { kind: 'set', start: 30, finish: null, builders: null },
        }),
      ],
      lags: [lag(0, 1, 0), lag(0, 1, 5, { bound: 'close' })],
    });
    expect(starts(of)).toEqual([21, 30]);
  });

  it('waits for a warmer hour where the cure is shorter then', () => {
    // Anchored at 0..9 the cure opens at 50, from 10 on two minutes later. To finish B early A may
    // not start before 10: A 10-11, opens at 13, B 13-14. A table that fell would be no lag table;
    // this one is flat at 50 and then infeasible for A late, so the lag is one for each mode.
    const cold = { kind: 'constant', minutes: 40 } as const;
    const warm = { kind: 'constant', minutes: 2 } as const;
    const night = [{ start: 0, end: 10 }];
    const of = hour({
      activities: [
        activity('A', [
          mode({ duration: 1 }),
          mode({
            duration: 1,
            forbidden: [{ anchor: 'start', spans: night, kind: 'climate', source: 'x' }],
          }),
        ]),
        activity('B', [mode({ duration: 1 })]),
      ],
      lags: [lag(0, 1, 0, { fns: [cold, warm] })],
    });
    expect(best(of)).toEqual([0, 14, 0, 0]);
  });

  it('pauses split work in a break, and the rest of it not', () => {
    // Ada works 0-10 and 15-60 with a break 4-6. Splittable work of 12 minutes: 0-4, 6-10, 15-19.
    // In one piece through relieved breaks it does not fit before 15: 15-27. Observed, work of 5
    // minutes starts after the break at the earliest, but then the shift ends at 10: 15-20.
    const calendars = [
      {
        ...always,
        shifts: [
          { start: 0, end: 10 },
          { start: 15, end: 60 },
        ],
        breaks: [{ start: 4, end: 6 }],
      },
    ];
    const finish = (way: ReturnType<typeof work>): number =>
      Number(best(hour({ calendars, activities: [activity('A', [way])] }))[1]);
    expect(finish(work(12, { splittable: true }))).toBe(19);
    expect(finish(work(12))).toBe(27);
    expect(finish(work(5, { breaks: 'observed' }))).toBe(20);
    expect(finish(work(5))).toBe(5);
    // With its clean-down of 6 minutes it would end at 11, after the shift.
    expect(finish(work(5, { cleanDown: 6 }))).toBe(20);
  });

  it('takes overtime where the promise needs it, and only then', () => {
    // Ada works 0-10 and 30-40, and may work 10-14 for 5 a minute more than her 1. Of 12 minutes in
    // one piece, 0-12 has two minutes of overtime: 12 + 10. Without the promise of 20 they are as
    // early, since an early finish comes before money. Eight minutes need none.
    const calendars = [
      {
        ...always,
        shifts: [
          { start: 0, end: 10 },
          { start: 30, end: 50 },
        ],
        overtime: [{ start: 10, end: 14, cost: 5 }],
      },
    ];
    const of = (minutes: number): Problem =>
      hour({
        calendars,
        builders: [builder('Ada', { cost: 1 })],
        activities: [activity('A', [work(minutes)])],
        refits: [{ ...refit, due: 20 }],
      });
    expect(best(of(12))).toEqual([0, 12, 22, 0]);
    expect(best(of(8))).toEqual([0, 8, 8, 0]);
    // With a tolerance of 30 weighted minutes on the second rank, but none on the first, the
    // promise still forbids 30-42; with no promise the money decides: 12 for 30-42.
    const patient = { ...of(12), tolerances: [0, 30, 0] as const };
    expect(best(patient)).toEqual([0, 12, 22, 0]);
    const unpromised = { ...patient, refits: [refit] };
    expect(best(unpromised)).toEqual([0, 12, 12, 0]);
  });
});

describe('people', () => {
  it('keep a learner beside a senior, whoever that leaves', () => {
    // Lea learns: level 1 beside Ada, who has 2. Two jobs of 10 each for one builder, and Lea may
    // not do one alone: Ada does both, 0-10 and 10-20.
    const learner = { skill: 0, level: 1, speed: 100, needsSenior: true };
    const of = hour({
      builders: [
        builder('Ada', { abilities: [{ ...learner, level: 2, needsSenior: false }] }),
        builder('Lea', { abilities: [learner] }),
      ],
      activities: [activity('A', [work(10)]), activity('B', [work(10)])],
    });
    expect(best(of)).toEqual([0, 20, 0, 0]);
    // One job for two may have them both: 10 minutes of work in 5.
    const pair = mode({ work: 1000, crew: [{ skill: 0, minLevel: 1, count: 2 }] });
    expect(best({ ...of, activities: [activity('A', [pair])] })).toEqual([0, 5, 0, 0]);
  });

  it('are the cheaper ones where that costs no time', () => {
    // Bo costs 1 and Cleo 3 a minute. Two jobs of 6 minutes at the same time cost 6 + 18; one
    // after the other by Bo would end at 12 instead of 6. A tolerance of 6 allows that: 12.
    const of = hour({
      builders: [builder('Cleo', { cost: 3 }), builder('Bo', { cost: 1 })],
      activities: [activity('A', [work(6)]), activity('B', [work(6)])],
    });
    expect(best(of)).toEqual([0, 6, 24, 0]);
    expect(best({ ...of, tolerances: [0, 6, 0] })).toEqual([0, 6, 12, 0]);
  });

  it('stay whom people were told, where nothing else matters', () => {
    // Either may do it from 0 on. Told was Bo at 3: moved by 3 minutes, not by more than the
    // tolerance of 3, so that Bo at 0 disturbs nobody. With a tolerance of 2 it weighs 4.
    const told = { activity: 0, start: 3, builders: [1], weight: 4 };
    const of = hour({
      builders: [builder('Ada'), builder('Bo')],
      activities: [activity('A', [work(6)])],
      published: { tolerance: 3, tasks: [told] },
    });
    expect(best(of)).toEqual([0, 6, 0, 0]);
    expect(decide(of).plan?.placements[0].crew[0].builder).toBe(1);
    expect(best({ ...of, published: { tolerance: 2, tasks: [told] } })).toEqual([0, 6, 0, 4]);
  });
});
