import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { DomainError } from '#kernel/error.ts';

import { covers, intersect, measure, normalise } from '../intervals.ts';
import { addDays, timeOf } from '../local-date.ts';
import { instantOf, isoOf } from '../local-time.ts';
import { expandShifts } from './expand.ts';
import { shiftFaults } from './faults.ts';
import type { ShiftBreak, ShiftException, ShiftPattern, WeeklyShift } from './pattern.ts';

const shift = (
  weekday: number,
  from: string,
  to: string,
  ...breaks: readonly (readonly [string, string])[]
): WeeklyShift => ({
  weekday,
  from,
  to,
  breaks: breaks.map(([a, b]): ShiftBreak => ({ from: a, to: b })),
});

const paths = { pattern: 'builders[0].shifts', exceptions: 'builders[0].exceptions' };
const MONDAY = '2026-11-02T00:00:00Z';

describe('expanding shifts', () => {
  const pattern: ShiftPattern = [
    shift(1, '07:30', '16:00', ['12:00', '12:30']),
    shift(2, '07:30', '16:00', ['10:00', '10:15'], ['12:00', '12:30']),
  ];

  it('gives minutes from the origin, breaks inside', () => {
    expect(expandShifts(pattern, [], 'UTC', MONDAY, 3 * 1440)).toEqual({
      shifts: [
        { start: 450, end: 960 },
        { start: 1890, end: 2400 },
      ],
      breaks: [
        { start: 720, end: 750 },
        { start: 2040, end: 2055 },
        { start: 2160, end: 2190 },
      ],
    });
  });

  it('reads the wall clock of the zone', () => {
    // New York is 5 hours behind UTC in November.
    const { shifts } = expandShifts(pattern, [], 'America/New_York', MONDAY, 1440);
    expect(shifts).toEqual([{ start: 750, end: 1260 }]);
  });

  it('clips at the origin and at the horizon, breaks with it', () => {
    expect(expandShifts(pattern, [], 'UTC', '2026-11-02T12:15:00Z', 60)).toEqual({
      shifts: [{ start: 0, end: 60 }],
      breaks: [{ start: 0, end: 15 }],
    });
  });

  it('takes the exception instead of the pattern on its date', () => {
    const exceptions: ShiftException[] = [
      { date: '2026-11-02', shifts: [] },
      { date: '2026-11-03', shifts: [{ from: '18:00', to: '20:00', breaks: [] }] },
    ];
    expect(expandShifts(pattern, exceptions, 'UTC', MONDAY, 3 * 1440)).toEqual({
      shifts: [{ start: 1440 + 1080, end: 1440 + 1200 }],
      breaks: [],
    });
  });

  it('joins shifts that touch', () => {
    const halves = [shift(1, '08:00', '12:00'), shift(1, '12:00', '16:00')];
    expect(expandShifts(halves, [], 'UTC', MONDAY, 1440).shifts).toEqual([
      { start: 480, end: 960 },
    ]);
  });

  it('runs a night shift over midnight with its break on the next day', () => {
    const night = [shift(7, '22:00', '06:00', ['01:00', '01:30'])];
    // Sunday's shift began before the origin, Monday 00:00.
    expect(expandShifts(night, [], 'UTC', MONDAY, 1440)).toEqual({
      shifts: [{ start: 0, end: 360 }],
      breaks: [{ start: 60, end: 90 }],
    });
  });

  it.each([
    // British clocks go forward on 29 March 2026 and back on 25 October (SI 2002/262).
    ['2026-03-28T12:00:00Z', 7],
    ['2026-10-24T12:00:00Z', 9],
    ['2026-10-31T12:00:00Z', 8],
  ])('works the hours that a night over a clock change really has (%s)', (from, hours) => {
    const { shifts } = expandShifts([shift(6, '22:00', '06:00')], [], 'Europe/London', from, 1440);
    expect(measure(shifts)).toBe(hours * 60);
  });

  it('drops a shift that the clocks skip up to its end, and merges one moved into another', () => {
    const from = '2026-03-29T00:00:00Z';
    const skipped = expandShifts([shift(7, '01:30', '02:00')], [], 'Europe/London', from, 600);
    expect(skipped.shifts).toEqual([]);
    const moved = [shift(7, '01:00', '01:45'), shift(7, '02:15', '03:00')];
    // 01:00-01:45 is shown as 02:00-02:45, from 01:00 UTC; 02:15-03:00 ends at 02:00 UTC.
    expect(expandShifts(moved, [], 'Europe/London', from, 600).shifts).toEqual([
      { start: 60, end: 120 },
    ]);
  });

  it('works round the clock when a shift ends where it begins', () => {
    const always = [1, 2, 3, 4, 5, 6, 7].map((day) => shift(day, '06:00', '06:00'));
    expect(expandShifts(always, [], 'Europe/London', '2026-03-27T00:00Z', 9999).shifts).toEqual([
      { start: 0, end: 9999 },
    ]);
  });
});

describe('faults of shifts', () => {
  it('names both of two that overlap, and where', () => {
    const pattern = [shift(2, '07:30', '15:30'), shift(2, '15:00', '18:00')];
    expect(shiftFaults(pattern, [], paths)).toEqual([
      {
        code: 'yard.shifts-overlap',
        path: 'builders[0].shifts[1]',
        value: { from: '15:00', to: '18:00' },
        message: 'Tuesday 07:30-15:30 and Tuesday 15:00-18:00 overlap',
        cure: 'Shorten or remove one of the two shifts.',
      },
    ]);
    expect(() => expandShifts(pattern, [], 'UTC', MONDAY, 60)).toThrow(DomainError);
  });

  const messages = (pattern: ShiftPattern, exceptions: readonly ShiftException[] = []): string[] =>
    shiftFaults(pattern, exceptions, paths).map((f) => `${f.path}: ${f.message}`);

  it('finds a night shift that runs into the next day, round the end of the week too', () => {
    expect(messages([shift(7, '22:00', '06:00'), shift(1, '05:00', '12:00')])).toEqual([
      'builders[0].shifts[1]: Sunday 22:00-06:00 and Monday 05:00-12:00 overlap',
    ]);
    expect(messages([shift(7, '22:00', '06:00'), shift(1, '06:00', '12:00')])).toEqual([]);
  });

  it('finds overlaps of an exception with itself and with the days around it', () => {
    const pattern = [shift(1, '22:00', '06:00'), shift(3, '05:00', '12:00')];
    const day = (date: string, ...shifts: [string, string][]): ShiftException => ({
      date,
      shifts: shifts.map(([from, to]) => ({ from, to, breaks: [] })),
    });
    expect(
      messages(pattern, [
        day('2026-11-03', ['05:30', '10:00'], ['09:00', '11:00'], ['23:00', '05:30']),
      ]),
    ).toEqual([
      'builders[0].exceptions[0].shifts[0]: 2026-11-02 22:00-06:00 and 2026-11-03 05:30-10:00 overlap',
      'builders[0].exceptions[0].shifts[1]: 2026-11-03 05:30-10:00 and 2026-11-03 09:00-11:00 overlap',
      'builders[0].shifts[1]: 2026-11-03 23:00-05:30 and 2026-11-04 05:00-12:00 overlap',
    ]);
    expect(messages(pattern, [day('2026-11-02'), day('2026-11-03', ['05:30', '10:00'])])).toEqual(
      [],
    );
  });

  it('finds bad times, weekdays and dates, breaks outside, and a date given twice', () => {
    const bad = [
      shift(8, '07:30', '16:00'),
      shift(1, '7:30', '16:00'),
      shift(2, '08:00', '12:00', ['11:45', '12:15']),
    ];
    const twice = [
      { date: '2026-11-03', shifts: [] },
      { date: '2026-11-03', shifts: [] },
      { date: '2026-11-31', shifts: [] },
    ];
    expect(messages(bad, twice)).toEqual([
      'builders[0].shifts[0].weekday: 8 is no weekday',
      'builders[0].shifts[1].from: "7:30" is not a time of day',
      'builders[0].shifts[2].breaks[0]: The break 11:45-12:15 is not inside the shift 08:00-12:00',
      'builders[0].exceptions[1].date: 2026-11-03 has two exceptions',
      'builders[0].exceptions[2].date: "2026-11-31" is not a date',
    ]);
  });
});

describe('laws of expansion', () => {
  /** One shift a weekday at most, eight hours at most, so that none overlap. */
  const patterns: fc.Arbitrary<ShiftPattern> = fc
    .uniqueArray(fc.integer({ min: 1, max: 7 }), { maxLength: 7 })
    .chain((weekdays) =>
      fc.tuple(
        ...weekdays.map((weekday) =>
          fc
            .record({
              from: fc.integer({ min: 0, max: 1439 }),
              length: fc.integer({ min: 60, max: 480 }),
            })
            .map(({ from, length }): WeeklyShift => {
              const at = (minute: number): string => timeOf((from + minute) % 1440);
              return shift(weekday, at(0), at(length), [at(20), at(40)]);
            }),
        ),
      ),
    )
    .filter((pattern) => shiftFaults(pattern, [], paths).length === 0);
  const zones = fc.constantFrom('UTC', 'Europe/London', 'America/New_York', 'Australia/Lord_Howe');
  // Minutes of 2026, through every clock change of these zones.
  const starts = fc
    .integer({ min: 0, max: 525_000 })
    .map((m) => instantOf('2026-01-01T00:00Z') + m);

  it('gives proper sets with the breaks inside the shifts', () => {
    fc.assert(
      fc.property(patterns, zones, starts, (pattern, zone, start) => {
        const { shifts, breaks } = expandShifts(pattern, [], zone, isoOf(start), 20_000);
        expect(normalise(shifts)).toEqual(shifts);
        expect(normalise(breaks)).toEqual(breaks);
        expect(breaks.every((pause) => covers(shifts, pause))).toBe(true);
      }),
    );
  });

  it('shows the same work from a later origin', () => {
    fc.assert(
      fc.property(
        patterns,
        zones,
        starts,
        fc.integer({ min: 1, max: 9000 }),
        (pattern, zone, start, by) => {
          const whole = expandShifts(pattern, [], zone, isoOf(start), 20_000).shifts;
          const rest = expandShifts(pattern, [], zone, isoOf(start + by), 20_000 - by).shifts;
          const moved = rest.map(({ start: s, end }) => ({ start: s + by, end: end + by }));
          expect(moved).toEqual(intersect(whole, [{ start: by, end: 20_000 }]));
        },
      ),
    );
  });

  it('says the same as the pattern when every date of it is an exception', () => {
    fc.assert(
      fc.property(patterns, zones, (pattern, zone) => {
        const exceptions = Array.from({ length: 16 }, (_, k) => ({
          date: addDays('2026-03-23', k),
          shifts: pattern.filter((s) => s.weekday === (k % 7) + 1),
        }));
        const from = '2026-03-24T12:00:00Z';
        expect(expandShifts([], exceptions, zone, from, 14_000)).toEqual(
          expandShifts(pattern, [], zone, from, 14_000),
        );
      }),
    );
  });
});
