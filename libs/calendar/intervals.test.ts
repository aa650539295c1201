import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import {
  contains,
  covers,
  intersect,
  measure,
  normalise,
  subtract,
  union,
  type Interval,
} from './intervals.ts';

const SIZE = 40;
const loose = fc.array(
  fc.record({ start: fc.integer({ min: 0, max: SIZE }), end: fc.integer({ min: 0, max: SIZE }) }),
  { maxLength: 8 },
);

/** The set as one truth a minute, made without the library. */
const minutes = (set: readonly Interval[]): boolean[] =>
  Array.from({ length: SIZE }, (_, m) => set.some((i) => i.start <= m && m < i.end));

/** Sorted, disjoint, not touching, none empty. */
const proper = (set: readonly Interval[]): boolean =>
  set.every((i, k) => i.start < i.end && (k === 0 || set[k - 1].end < i.start));

describe('intervals against minutes one by one', () => {
  it('normalises any list', () => {
    fc.assert(
      fc.property(loose, (list) => {
        const set = normalise(list);
        expect(proper(set)).toBe(true);
        expect(minutes(set)).toEqual(minutes(list));
        expect(normalise(set)).toEqual(set);
      }),
    );
  });

  it.each([
    ['union', union, (a: boolean, b: boolean) => a || b],
    ['intersect', intersect, (a: boolean, b: boolean) => a && b],
    ['subtract', subtract, (a: boolean, b: boolean) => a && !b],
  ] as const)('%s', (_, operation, truth) => {
    fc.assert(
      fc.property(loose.map(normalise), loose.map(normalise), (a, b) => {
        const result = operation(a, b);
        expect(proper(result)).toBe(true);
        const right = minutes(b);
        expect(minutes(result)).toEqual(minutes(a).map((left, m) => truth(left, right[m])));
      }),
    );
  });

  it('contains, covers and measures', () => {
    const span = fc.record({ start: fc.nat(SIZE), length: fc.nat(10) });
    fc.assert(
      fc.property(loose.map(normalise), span, (set, { start, length }) => {
        const truths = minutes(set);
        const end = Math.min(SIZE, start + length);
        expect(contains(set, start)).toBe(truths[start] ?? false);
        expect(covers(set, { start, end })).toBe(truths.slice(start, end).every(Boolean));
        expect(measure(set)).toBe(truths.filter(Boolean).length);
      }),
    );
  });

  it('splits a set into what another takes and leaves', () => {
    fc.assert(
      fc.property(loose.map(normalise), loose.map(normalise), (a, b) => {
        expect(union(intersect(a, b), subtract(a, b))).toEqual(a);
        expect(intersect(subtract(a, b), b)).toEqual([]);
      }),
    );
  });
});
