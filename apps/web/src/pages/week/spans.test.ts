import { describe, expect, it } from 'vitest';
import { between, joined, rowsOf, within } from './spans.ts';

const span = (from: number, until: number) => ({ from, until });

describe('spans', () => {
  it('are joined where they touch, or lie apart by no more than the gap', () => {
    expect(joined([span(5, 6), span(0, 2), span(1, 3)])).toEqual([span(0, 3), span(5, 6)]);
    expect(joined([span(0, 2), span(4, 5), span(9, 9)], 2)).toEqual([span(0, 5)]);
  });

  it('are cut to what is looked at, and what they leave of it is known', () => {
    const some = [span(0, 4), span(6, 8), span(9, 20)];
    expect(within(some, span(2, 10))).toEqual([span(2, 4), span(6, 8), span(9, 10)]);
    expect(between(some, span(2, 10))).toEqual([span(4, 6), span(8, 9)]);
    expect(between([], span(2, 10))).toEqual([span(2, 10)]);
  });

  it('have rows in which none lies over another', () => {
    const some = [span(0, 10), span(2, 4), span(4, 6), span(3, 12), span(10, 11)];
    const rows = rowsOf(some);
    expect(rows).toEqual([0, 1, 1, 2, 0]);
    expect(rowsOf([span(0, 2), span(2, 3)], 1)).toEqual([0, 1]);
  });
});
