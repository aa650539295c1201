import { describe, expect, it } from 'vitest';
import { firstRoot } from '../../bounds/root.ts';
import type { Problem } from '../../model/problem.ts';
import { activity } from '../../testing/make.ts';
import { madeUpYard } from '../../testing/made-up-yard.ts';
import { compile } from '../crew/compiled/compiled.ts';
import { searchFor } from '../crew/testing/best.ts';
import { ledgerOf } from './ledger.ts';
import { strideOf } from './rounds.ts';
import { wholeSeats } from './whole-seats.ts';

/** A yard in the middle of its season: three boats, and two more that are done. */
function midSeason(): Problem {
  const yard = madeUpYard(3, 12);
  const done = [0, 1].map((k) => `done ${String(k)}`);
  const way = { ...yard.activities[0].modes[0], crew: [] };
  const happened = { kind: 'frozen', start: -120, finish: -60, builders: [] } as const;
  return {
    ...yard,
    refits: [...yard.refits, ...done.map((id) => ({ ...yard.refits[0], id }))],
    activities: [
      ...yard.activities,
      ...done.map((id, k) => activity(id, [way], { refit: 3 + k, fixed: happened })),
    ],
  };
}

const hasTurns = (of: Problem): boolean => wholeSeats(of).some(({ name }) => name === 'turns');

describe('refits in turn, with boats that are done', () => {
  it('have a seat where three boats are left', () => {
    const of = midSeason();
    expect(hasTurns(of)).toBe(true);
    const two = of.refits.map((one, r) => (r === 0 ? { ...one, weight: 0 } : one));
    expect(hasTurns({ ...of, refits: two })).toBe(false);
  });

  it('cost effort in every stage, and no stride costs much more than it was priced at', () => {
    const of = midSeason();
    const compiled = compile(of);
    const root = firstRoot(compiled);
    const seat = wholeSeats(of).find(({ name }) => name === 'turns');
    if (seat === undefined) throw new Error('no seat');
    const warm = searchFor(of, 1).step(60).plan;
    const search = seat.open({
      problem: of,
      seed: 1,
      warm,
      compiled: () => compiled,
      root: () => root,
      limits: {},
    });
    const effort = (): number => search.effort?.() ?? 0;
    const ledger = ledgerOf([seat]);
    // Through all stages and some of the whole; parts of 50 milliseconds.
    for (let iterations = 0; iterations < 2600;) {
      const price = ledger.price(0);
      const part = Math.max(1, Math.round(50_000 / price));
      for (let left = part; left > 0;) {
        const stride = Math.min(left, strideOf(price));
        const before = effort();
        search.step(stride);
        // In microseconds: a stride is priced at 4000, and a stage's problem is made in one.
        expect(effort() - before, String(iterations)).toBeLessThan(16_000);
        left -= stride;
      }
      iterations += part;
      ledger.enter(0, part, effort(), false);
      expect(ledger.price(0), String(iterations)).toBeGreaterThan(4 * of.activities.length);
    }
  });
});
