import { describe, expect, it } from 'vitest';
import { ledgerOf } from './ledger.ts';
import { partsOf } from './rounds.ts';
import type { Seat } from './seat.ts';

const seat = (proves: boolean, needsPlan = false): Seat => ({
  name: 'one',
  from: 0,
  share: 0.5,
  proves,
  needsPlan,
  cost: 100,
  open: () => {
    throw new Error('is not opened here');
  },
});

describe('what searchers get of a round', () => {
  it('is all of their share after a round in which they bettered something, and less without', () => {
    const ledger = ledgerOf([seat(true), seat(false)]);
    const shares = (): number[] => [ledger.share(0), ledger.share(1)];
    const atFirst = ledger.share(1);
    expect(atFirst).toBeLessThan(0.5);
    for (const k of [0, 1]) ledger.enter(k, 10, null, true);
    expect(shares()).toEqual([0.5, 0.5]);
    for (let round = 0; round < 20; round += 1) {
      const before = ledger.share(1);
      for (const k of [0, 1]) ledger.enter(k, 10, null, false);
      expect(ledger.share(1)).toBeLessThanOrEqual(before);
    }
    // Never nothing: what was of no use may become so.
    expect(shares()).toEqual([0.5, atFirst]);
  });

  it('is fewer iterations where these turn out to be dear, and more where cheap', () => {
    const seats = [seat(true), seat(true), seat(true)];
    const ledger = ledgerOf(seats);
    const due = (): number[] =>
      partsOf(seats, 12, new Set(), Infinity, ledger, false).map(({ iterations }) => iterations);
    expect(new Set(due()).size).toBe(1);
    let spent = 0;
    for (let round = 1; round <= 12; round += 1) {
      spent += 10 * 1000;
      ledger.enter(0, 10, spent, false);
      ledger.enter(1, 10, spent / 100, false);
      ledger.enter(2, 10, null, false);
    }
    const [dear, cheap, uncounted] = due();
    expect(uncounted / dear).toBeCloseTo(10, 0);
    expect(cheap / uncounted).toBeCloseTo(10, 0);
  });

  it('is nothing before there is a plan, for those who need one', () => {
    const seats = [seat(true), seat(false, true)];
    const ledger = ledgerOf(seats);
    const due = (planned: boolean): number[] =>
      partsOf(seats, 12, new Set(), Infinity, ledger, planned).map((part) => part.seat);
    expect(due(false)).toEqual([0]);
    expect(due(true)).toEqual([0, 1]);
  });

  it('is a part for those who would join later, where nobody else is left', () => {
    const seats = [seat(true), { ...seat(true), from: 20 }, { ...seat(true), from: 30 }];
    const ledger = ledgerOf(seats);
    const due = (retired: readonly number[]): number[] =>
      partsOf(seats, 3, new Set(retired), Infinity, ledger, true).map((part) => part.seat);
    expect(due([])).toEqual([0]);
    expect(due([0])).toEqual([1]);
    expect(due([0, 1])).toEqual([2]);
    expect(due([0, 1, 2])).toEqual([]);
  });
});
