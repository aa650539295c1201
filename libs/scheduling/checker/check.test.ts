import { describe, expect, it } from 'vitest';
import type { Plan } from '../model/plan.ts';
import { range } from '../testing/draw.ts';
import { activity, mode, placed, plan, problem, single, work } from '../testing/make.ts';
import { tinyProblem } from '../testing/planted.ts';
import { check } from './check.ts';

/** A copy with every number given to `change`, in order. */
function copied<T>(value: T, change: (value: number) => number): T {
  const copy = (one: unknown): unknown => {
    if (typeof one === 'number') return change(one);
    if (Array.isArray(one)) return one.map(copy);
    if (typeof one !== 'object' || one === null) return one;
    return Object.fromEntries(Object.entries(one).map(([key, of]) => [key, copy(of)]));
  };
  return copy(value) as T;
}

function numbers(of: Plan): number {
  let count = 0;
  copied(of, (value) => {
    count++;
    return value;
  });
  return count;
}

/** The plan with another number at one place. */
function replaced(of: Plan, at: number, by: number): Plan {
  let index = 0;
  return copied(of, (value) => (index++ === at ? by : value));
}

describe('check', () => {
  const of = single(work(10));

  it('names what is wrong in words, and the record at fault', () => {
    expect(check(of, plan(of, [placed(0, '479-489', [0])]))).toEqual([
      {
        kind: 'shift',
        activities: [0],
        constraint: { kind: 'calendar', builder: 0 },
        message: 'A, 479-489, is not inside one shift of Ada',
      },
    ]);
  });

  const found = (wrong: Partial<Plan>): string[] =>
    check(of, { ...plan(of, [placed(0, '480-490', [0])]), ...wrong }).map(({ kind }) => kind);
  const right = placed(0, '480-490', [0]);

  it('asks for each activity once, in order, and nothing else', () => {
    const two = problem({ activities: [activity('A', [mode()]), activity('B', [mode()])] });
    const kinds = (...placements: Plan['placements']): string[] =>
      check(two, plan(two, placements)).map(({ kind }) => kind);
    expect(kinds(placed(0, '5-5'), placed(1, '5-5'))).toEqual([]);
    expect(kinds(placed(0, '5-5'))).toEqual(['missing']);
    expect(kinds(placed(1, '5-5'), placed(0, '5-5'))).toEqual(['form']);
    expect(kinds(placed(0, '5-5'), placed(0, '5-5'), placed(1, '5-5'))).toEqual(['duplicate']);
    expect(kinds(placed(0, '5-5'), placed(1, '5-5', [], { mode: 1 }))).toEqual(['mode']);
  });

  it.each([
    ['an unknown activity', { ...right, activity: 1 }],
    ['an activity of no number', { ...right, activity: NaN }],
    ['an unknown builder', placed(0, '480-490', [2])],
    ['half a builder', placed(0, '480-490', [0.5])],
    ['half a minute', { ...right, start: 480.5 }],
    ['a finish of no number', { ...right, finish: NaN }],
    ['a finish before the start', { ...right, finish: 479 }],
    ['half a minute in a segment', { ...right, segments: [{ start: 480, end: 489.5 }] }],
    ['an empty segment', { ...right, segments: [{ start: 480, end: 480 }] }],
    [
      'segments out of order',
      {
        ...right,
        segments: [
          { start: 485, end: 490 },
          { start: 480, end: 486 },
        ],
      },
    ],
  ])('reads %s without throwing', (_, placement) => {
    expect(found({ placements: [placement] })).toContain('form');
  });

  it.each([
    ['a demand that is none', { crew: [{ builder: 0, demand: NaN }] }, 'crew-count'],
    ['a mode that is none', { mode: NaN }, 'mode'],
    ['a slot that is none', { slot: NaN }, 'slot'],
  ])('reads %s without throwing', (_, given, kind) => {
    expect(found({ placements: [{ ...right, ...given }] })).toContain(kind);
  });

  it('reads a plan of nothing without throwing', () => {
    expect(found({ placements: [], finishes: [NaN], branches: [NaN] })).toEqual([
      'branch',
      'missing',
      'values',
      'values',
    ]);
  });

  it('reads any number anywhere in a plan without throwing, and finds fault', () => {
    const strange = [NaN, Infinity, -Infinity, -1, 0.5, 2 ** 40, -(2 ** 40)];
    let faults = 0;
    let tried = 0;
    for (const seed of range(12)) {
      const { problem: given, plan: right } = tinyProblem(seed, 3 + (seed % 4));
      expect(check(given, right), `seed ${seed}`).toEqual([]);
      for (const at of range(numbers(right)))
        for (const value of strange) {
          tried++;
          if (check(given, replaced(right, at, value)).length > 0) faults++;
        }
    }
    expect(tried).toBeGreaterThan(3000);
    // Which demand a builder served in frozen work is nobody's business: one number in thirty.
    expect(faults).toBeGreaterThan(0.95 * tried);
  });
});
