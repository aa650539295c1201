import { describe, expect, it } from 'vitest';
import type { FixedWork, Problem, Slot } from '../model/problem.ts';
import { activity, kinds, mode, placed, plan, problem, work } from '../testing/make.ts';
import { check } from './check.ts';

const slot = (start: number, end: number, bookBy = 500): Slot => ({ start, end, bookBy, cost: 70 });
const crane = (fixed: FixedWork | null = null, given: Partial<Problem> = {}): Problem =>
  problem({
    now: 30,
    slotLists: [
      { id: 'tide', slots: [], source: 'tide' },
      {
        id: 'crane',
        slots: [slot(500, 600), slot(510, 700, 30), slot(720, 900, 29)],
        source: 'crane',
      },
    ],
    activities: [activity('lift', [work(60, { slots: 1, cleanDown: 10 }), work(60)], { fixed })],
    ...given,
  });
const lifted = (start: number, index: number | null, way = 0): string[] =>
  kinds(crane(), [placed(0, `${start}-${start + 60}`, [0], { slot: index, mode: way })]);

describe('slots', () => {
  it.each([
    ['from its first minute', 500, 0, []],
    ['a minute before it', 499, 0, ['slot']],
    ['to its last minute, clean-down included', 530, 0, []],
    ['a minute after it', 531, 0, ['slot']],
    ['in the one named, where another would do', 531, 1, []],
    ['booked at the last minute', 600, 1, []],
    ['booked too late', 800, 2, ['slot']],
    ['in none', 500, null, ['slot']],
    ['in one that is not there', 500, 3, ['slot']],
    ['in half a one', 500, 0.5, ['slot']],
  ])('%s', (_, start, index, expected) => {
    expect(lifted(start, index)).toEqual(expected);
  });
  it('are named by their list', () => {
    expect(check(crane(), plan(crane(), [placed(0, '499-559', [0], { slot: 0 })]))).toMatchObject([
      { kind: 'slot', activities: [0], constraint: { kind: 'slots', slotList: 1 } },
    ]);
  });
  it('are named only by work that needs one', () => {
    expect(lifted(500, null, 1)).toEqual([]);
    expect(lifted(500, 0, 1)).toEqual(['slot']);
  });
  it('may be shared, and hold work of no time', () => {
    const two = crane(null, {
      activities: [
        activity('A', [mode({ duration: 60, slots: 1 })]),
        activity('B', [mode({ slots: 1 })]),
      ],
    });
    const at = (minute: number): string[] =>
      kinds(two, [
        placed(0, '500-560', [], { slot: 0 }),
        placed(1, `${minute}-${minute}`, [], { slot: 0 }),
      ]);
    expect([500, 600, 499, 601].map(at)).toEqual([[], [], ['slot'], ['slot']]);
  });
  it('are no matter of what has happened', () => {
    const past = crane({ kind: 'frozen', start: 0, finish: 60, builders: [0] });
    expect(kinds(past, [placed(0, '0-60', [0])])).toEqual([]);
    expect(kinds(past, [placed(0, '0-60', [0], { slot: 0 })])).toEqual(['slot']);
  });
});
