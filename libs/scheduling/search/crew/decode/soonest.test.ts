import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { soonestOf } from './soonest.ts';

describe('candidates by their moments', () => {
  it('come the soonest first, of equal ones the lower number, and never those that have none', () => {
    const soonest = soonestOf(60);
    const moment = fc.oneof(fc.nat(8), fc.constant(Infinity));
    fc.assert(
      fc.property(fc.array(moment, { maxLength: 60 }), (moments) => {
        soonest.begin(Float64Array.from(moments), moments.length);
        const came: number[] = [];
        for (let c = soonest.first(); c >= 0; c = soonest.first()) {
          came.push(c);
          soonest.drop();
        }
        const possible = moments.flatMap((at, c) => (at < Infinity ? [c] : []));
        expect(came).toEqual(possible.sort((a, b) => moments[a] - moments[b] || a - b));
      }),
    );
  });
});
