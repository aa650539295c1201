import { describe, expect, it } from 'vitest';
import { activity, kinds, mode, placed, plan, problem, single, work } from '../testing/make.ts';
import { check } from './check.ts';

describe('check', () => {
  it('holds release, horizon and forbidden starts to the minute', () => {
    const way = mode({ duration: 10, forbiddenStarts: [{ start: 50, end: 60 }] });
    const of = problem({ horizon: 100, activities: [activity('A', [way], { release: 40 })] });
    const starting = (start: number): string[] => kinds(of, [placed(0, `${start}-${start + 10}`)]);
    expect([39, 40, 49, 50, 59, 60, 90, 91].map(starting)).toEqual([
      ['release'],
      [],
      [],
      ['forbidden-start'],
      ['forbidden-start'],
      [],
      [],
      ['horizon'],
    ]);
    expect(kinds(single(mode({ duration: 10 })), [placed(0, '-1-9')])).toEqual([
      'horizon',
      'release',
    ]);
  });
  it('recomputes finishes and values', () => {
    const of = single(mode({ duration: 1010 }));
    const right = plan(of, [placed(0, '0-1010')]);
    expect(right.values).toEqual([10, 1010]);
    expect(check(of, right)).toEqual([]);
    for (const wrong of [
      { ...right, finishes: [1009] },
      { ...right, finishes: [] },
      { ...right, values: [11, 1010] as const },
      { ...right, values: [10, 1009] as const },
    ])
      expect(check(of, wrong).map((violation) => violation.kind)).toContain('values');
  });
  it('names what is wrong in words', () => {
    const [violation] = check(
      single(work(10)),
      plan(single(work(10)), [placed(0, '479-489', [0])]),
    );
    expect(violation).toMatchObject({ kind: 'shift', activities: [0], builder: 0 });
    expect(violation.message).toBe('A, 479-489, is not inside one shift of Ada');
  });
});
