import { describe, expect, it } from 'vitest';
import type { Problem } from '../model/problem.ts';
import { kinds, mode, placed, problem, single, work } from '../testing/make.ts';

/** 480-960 with a break 720-750; overtime 400-450, 960-1020 and 1020-1080 (which costs more), 1200-1300. */
const evening = (of: Problem): Problem => ({
  ...of,
  calendars: [
    {
      ...problem().calendars[0],
      shifts: [{ start: 480, end: 960 }],
      breaks: [{ start: 720, end: 750 }],
      overtime: [
        { start: 400, end: 450, cost: 1 },
        { start: 960, end: 1020, cost: 1 },
        { start: 1020, end: 1080, cost: 2 },
        { start: 1200, end: 1300, cost: 1 },
      ],
    },
  ],
});
const over = { overtime: true };

describe('overtime', () => {
  it.each([
    ['one piece over the end of the shift', '900-1080', true, []],
    ['one piece in overtime alone', '1200-1300', true, []],
    ['a minute past the overtime', '901-1081', true, ['shift']],
    ['from overtime that does not touch the shift', '449-489', true, ['shift']],
    ['the same piece without it', '900-1080', false, ['shift']],
    ['a minute of it without it', '860-961', false, ['shift']],
    ['inside the shift, asked for in vain', '500-520', true, []],
  ] as const)('%s', (_, spans, overtime, expected) => {
    const { start, finish } = placed(0, spans);
    const of = evening(single(work(finish - start)));
    expect(kinds(of, [placed(0, spans, [0], { overtime })])).toEqual(expected);
  });

  it('keeps the breaks and makes room for the clean-down', () => {
    const of = (minutes: number): Problem =>
      evening(single(work(minutes, { breaks: 'observed', cleanDown: 20 })));
    expect(kinds(of(310), [placed(0, '750-1060', [0], over)])).toEqual([]);
    expect(kinds(of(311), [placed(0, '750-1061', [0], over)])).toEqual(['clean-down']);
    expect(kinds(of(310), [placed(0, '749-1059', [0], over)])).toEqual(['shift']);
    expect(kinds(of(10), [placed(0, '940-950', [0])])).toEqual(['clean-down']);
  });

  it('is working time of split work only where it is placed with it', () => {
    const of = (minutes: number): Problem => evening(single(work(minutes, { splittable: true })));
    expect(kinds(of(400), [placed(0, '700-720 750-1080 1200-1250', [0], over)])).toEqual([]);
    expect(kinds(of(400), [placed(0, '700-720 750-1080 1200-1250', [0])])).toEqual([
      'segments',
      'duration',
      'shift',
    ]);
    expect(kinds(of(90), [placed(0, '400-450 480-520', [0], over)])).toEqual([]);
    expect(kinds(of(240), [placed(0, '700-720 750-960 1200-1210', [0], over)])).toEqual([
      'segments',
      'duration',
    ]);
    expect(kinds(of(180), [placed(0, '900-1020 1020-1080', [0], over)])).toEqual(['segments']);
  });

  it('is for people, and not for what has happened', () => {
    expect(kinds(single(mode({ duration: 5 })), [placed(0, '0-5', [], over)])).toEqual([
      'overtime',
    ]);
    const happened = { kind: 'frozen', start: 0, finish: 5, builders: [0] } as const;
    expect(kinds(single(work(5), happened), [placed(0, '0-5', [0], over)])).toEqual(['overtime']);
  });
});
