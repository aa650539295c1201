import { describe, expect, it } from 'vitest';
import { Literals, lowerOf } from './literal.ts';
import { Network } from './network.ts';
import type { Propagator } from './propagator.ts';

const unit = (b: number, v: number): Literals => {
  const literals = new Literals();
  literals.add(b, v);
  return literals;
};

describe('the work that a network counts', () => {
  it('has a unit for each rise, those that others bring about included', () => {
    const variables = 100;
    const root = Int32Array.from({ length: 2 * variables }, (_, b) => (b % 2 === 0 ? 0 : -9));
    const arcs = Array.from({ length: variables - 1 }, (_, x) => ({
      from: x,
      to: x + 1,
      weight: 0,
      when: -1,
    }));
    const network = new Network({ root, arcs, propagators: [] });
    expect(network.propagate()).toBe(true);
    const before = network.work;
    expect(network.require(unit(lowerOf(0), 5))).toBe(true);
    expect(network.propagate()).toBe(true);
    expect(network.trail.bound[lowerOf(variables - 1)]).toBe(5);
    expect(network.work - before).toBe(variables);
  });

  it('is quadratic for the dearest propagators, however much they watch', () => {
    const watched = 50_000;
    const dear: Propagator = {
      cost: 3,
      watches: Array.from({ length: watched }, () => ({ bound: 0, datum: 0 })),
      notice: (() => {
        let isWaiting = false;
        return () => {
          const isNew = !isWaiting;
          isWaiting = true;
          return isNew;
        };
      })(),
      propagate: () => true,
      rewind: () => undefined,
      drop: () => undefined,
      explain: () => undefined,
    };
    const network = new Network({
      root: Int32Array.of(0, -9),
      arcs: [],
      propagators: [() => dear],
    });
    expect(network.propagate()).toBe(true);
    expect(network.work).toBeGreaterThanOrEqual((watched * watched) / 64);
  });
});
