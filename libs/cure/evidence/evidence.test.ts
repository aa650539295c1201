import { describe, expect, it } from 'vitest';

import { TRUSTS } from './evidence.ts';
import { figure, level } from './figure.ts';
import { spreadOf } from './spread.ts';

describe('spread of what is known', () => {
  it('is a factor of at least 1 and an offset of at least 0 for every trust', () => {
    for (const trust of TRUSTS) {
      expect(spreadOf(trust, 'factor')).toBeGreaterThanOrEqual(1);
      expect(spreadOf(trust, 'offset')).toBeGreaterThanOrEqual(0);
    }
  });

  it('is the wider the less a source can be trusted', () => {
    // What was measured here and what the maker prints; read elsewhere; remembered; a rule of thumb.
    for (const of of ['factor', 'offset'] as const) {
      const order = (['sheet', 'read', 'memory', 'practice'] as const).map((t) => spreadOf(t, of));
      expect(order).toEqual(order.toSorted((a, b) => a - b));
      expect(spreadOf('measured', of)).toBeLessThan(spreadOf('read', of));
      expect(spreadOf('code', of)).toBeLessThan(spreadOf('memory', of));
    }
  });
});

describe('figure', () => {
  it('takes the spread of its trust, unless its source states one', () => {
    expect(figure(60, 'memory', 'a maker’s table')).toEqual({
      value: 60,
      spread: 1.4,
      trust: 'memory',
      source: 'a maker’s table',
      overridden: false,
    });
    expect(figure(60, 'memory', 'a maker’s table', 1).spread).toBe(1);
    expect(level(18, 'memory', 'a rule').spread).toBe(2);
    expect(level(18, 'sheet', 'a sheet').spread).toBe(0);
  });
});
