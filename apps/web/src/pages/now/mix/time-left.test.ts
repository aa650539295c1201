import { expect, test } from 'vitest';
import { timeLeft } from './time-left.ts';

const mixedAt = '2026-11-26T09:00:00.000Z';
const after = (minutes: number): number => Date.parse(mixedAt) + minutes * 60_000;

test('a cup is to be spread, then late, then past its pot life', () => {
  const cup = { mixedAt, useWithin: 20, potLife: 30 };
  expect(timeLeft(cup, after(5))).toEqual({ stage: 'spread', ms: 15 * 60_000, at: after(20) });
  expect(timeLeft(cup, after(20))).toEqual({ stage: 'late', ms: 10 * 60_000, at: after(30) });
  expect(timeLeft(cup, after(30))).toEqual({ stage: 'over', ms: null, at: null });
});

test('a sheet without a time to use it counts by the pot life, one without either by nothing', () => {
  expect(timeLeft({ mixedAt, useWithin: null, potLife: 12 }, after(2))).toMatchObject({
    stage: 'spread',
    at: after(12),
  });
  expect(timeLeft({ mixedAt, useWithin: 20, potLife: null }, after(21))?.stage).toBe('over');
  expect(timeLeft({ mixedAt, useWithin: null, potLife: null }, after(2))).toBeNull();
  expect(timeLeft({ mixedAt: null, useWithin: 20, potLife: 30 }, after(2))).toBeNull();
});
