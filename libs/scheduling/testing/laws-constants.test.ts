import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arcsOf, boundTo, ownersOf } from '../bounds/arc.ts';
import { leastWait, mostWait } from '../bounds/lag-constants.ts';
import { Distances, NO_PATH } from '../propagation/closure.ts';
import { range } from './draw.ts';
import { make, planted, tiny, type Instance } from './instances.ts';

const CASES = { numRuns: 1000 };

const law = (of: fc.Arbitrary<Instance>, holds: (instance: Instance) => void): void => {
  fc.assert(fc.property(of, holds), CASES);
};

const startOf = (activity: number): number => 2 * activity;
const finishOf = (activity: number): number => 2 * activity + 1;

describe('constants for lags', { timeout: 300_000 }, () => {
  it('hold for every anchor time within the horizon', () => {
    law(fc.oneof(tiny, planted), (instance) => {
      const { problem } = make(instance);
      const modes = problem.activities.map((one) => range(one.modes.length));
      for (const arc of arcsOf(problem, ownersOf(problem), modes)) {
        const wait = arc.open ? leastWait(problem, arc) : mostWait(problem, arc);
        const gaps = range(problem.horizon + 1).map((t) => boundTo(problem, arc, t) - t);
        if (arc.open) expect(Math.min(...gaps)).toBeGreaterThanOrEqual(wait);
        else expect(Math.max(...gaps)).toBeLessThanOrEqual(wait);
      }
    });
  });

  it('give all-pairs longest paths that a feasible plan respects', () => {
    let paths = 0;
    law(fc.oneof(tiny, planted), (instance) => {
      const { problem, known } = make(instance);
      if (!known) throw new Error('no plan is known');
      const at = new Map(
        known.placements.flatMap(({ activity, start, finish }) => [
          [startOf(activity), start],
          [finishOf(activity), finish],
        ]),
      );
      const modes = problem.activities.map((one) => range(one.modes.length));
      const arcs = arcsOf(problem, ownersOf(problem), modes).flatMap((arc) => {
        const from = (arc.fromFinish ? finishOf : startOf)(arc.from);
        const to = (arc.toFinish ? finishOf : startOf)(arc.to);
        const anchor = at.get(from);
        const taken = arc.choice < 0 || known.branches[arc.choice] === arc.branch;
        // Frozen work may lie before minute 0, where the functions say no more.
        if (!taken || anchor === undefined || anchor < 0 || !at.has(to)) return [];
        const arrow: [number, number, number] = arc.open
          ? [from, to, leastWait(problem, arc)]
          : [to, from, -mostWait(problem, arc)];
        return [arrow];
      });
      const lasting = known.placements.map(({ activity }): [number, number, number] => [
        startOf(activity),
        finishOf(activity),
        0,
      ]);
      const distances = new Distances(2 * problem.activities.length, [...arcs, ...lasting]);
      expect(distances.consistent).toBe(true);
      for (const [i, from] of at)
        for (const [j, to] of at) {
          const path = distances.at(i, j);
          if (path === NO_PATH) continue;
          if (i !== j) paths++;
          expect(to - from).toBeGreaterThanOrEqual(path);
        }
    });
    expect(paths).toBeGreaterThan(10_000);
  });
});
