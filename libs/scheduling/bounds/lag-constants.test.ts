import fc from 'fast-check';
import { expect, it } from 'vitest';
import { closesAt, opensAt } from '../model/lag.ts';
import { lag, problem } from '../testing/make.ts';
import { arcsOf, ownersOf } from './arc.ts';
import { leastWait, mostWait } from './lag-constants.ts';

const knots = fc.array(fc.tuple(fc.integer({ min: 1, max: 15 }), fc.integer({ min: 0, max: 30 })), {
  minLength: 1,
  maxLength: 12,
});

it('the least wait of an opening and the greatest of a closing are met by a whole anchor', () => {
  fc.assert(
    fc.property(knots, fc.integer({ min: 1, max: 60 }), (gaps, horizon) => {
      const at = [0];
      const values = [0];
      for (const [gap, rise] of [...gaps, [horizon, 0]]) {
        at.push(at[at.length - 1] + gap);
        values.push(values[values.length - 1] + rise);
      }
      const fns = [{ kind: 'table', table: 0 }] as const;
      const given = problem({
        horizon,
        tables: [{ id: 'lines', at, values, source: 'test' }],
        lags: [lag(0, 1, 0, { fns }), lag(0, 1, 0, { fns, bound: 'close' })],
      });
      const anchors = Array.from({ length: horizon + 1 }, (_, t) => t);
      const [opening, closing] = arcsOf(given, ownersOf(given), [[0], [0]]);
      expect(leastWait(given, opening)).toBe(
        Math.min(...anchors.map((t) => opensAt(given, fns[0], t) - t)),
      );
      expect(mostWait(given, closing)).toBe(
        Math.max(...anchors.map((t) => closesAt(given, fns[0], t) - t)),
      );
    }),
    { numRuns: 500 },
  );
});
