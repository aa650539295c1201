import { describe, expect, it } from 'vitest';
import { random } from '#kernel/random.ts';
import type { Interval, Problem, Refit } from '../../model/problem.ts';
import { compile } from '../../search/crew/compiled/compiled.ts';
import { bestOf } from '../../search/crew/testing/best.ts';
import { activity, builder, problem, work } from '../../testing/make.ts';
import { madeUpYard } from '../../testing/made-up-yard.ts';
import { plantedProblem } from '../../testing/planted.ts';
import { analyse } from '../critical-path.ts';
import { needsOf } from './pieces.ts';
import { pricedHours, type PricedHours } from './priced.ts';
import { windowsOf } from './refute.ts';

function priced(of: Problem, least?: readonly number[], until = of.horizon): PricedHours {
  const analysis = analyse(compile(of));
  const needs = needsOf(analysis);
  const cost = (r: number, finish: number): number => of.refits[r].weight * finish;
  const windows = windowsOf(analysis, needs);
  return pricedHours(of, needs, windows, least ?? analysis.finishes, cost, until);
}

function run(hours: PricedHours, steps: number): number {
  for (let k = 0; k < steps && !hours.done; k += 1) hours.step();
  return hours.bound;
}

describe('prices of hours', () => {
  it('know that boats which take a day each cannot all be done on the first', () => {
    const day = (d: number): Interval => ({ start: 1440 * d, end: 1440 * d + 480 });
    const hours = { breaks: [], overtime: [], source: 'week' };
    const boat = (r: number): Refit => ({
      id: `boat ${String(r)}`,
      release: 0,
      due: null,
      handovers: [],
      weight: r + 1,
      source: 'boat',
    });
    const of = problem({
      horizon: 4320,
      calendars: [{ id: 'week', shifts: [day(0), day(1), day(2)], ...hours }],
      builders: [builder('Ada')],
      activities: [0, 1, 2].map((r) =>
        activity(`boat ${String(r)}`, [work(480, { splittable: true })], { refit: r }),
      ),
      refits: [boat(0), boat(1), boat(2)],
    });
    const best = 3 * 480 + 2 * 1920 + 3360;
    const bound = run(priced(of), 3000);
    expect(bound).toBeLessThanOrEqual(best);
    // Alone each would be done after eight hours: 2880 in all.
    expect(bound).toBeGreaterThan(0.9 * best);
  });

  it('never bound more than a planted plan is worth, whatever least finishes it keeps', () => {
    for (let seed = 0; seed < 60; seed += 1) {
      const { problem: of, plan } = plantedProblem(seed, 4 + (seed % 37));
      const rng = random(seed);
      const analysis = analyse(compile(of));
      const least = [...analysis.finishes];
      const hours = priced(of, least, rng.below(2) === 0 ? of.horizon : 1440);
      const first = run(hours, 500);
      expect(first, `seed ${String(seed)}`).toBeLessThanOrEqual(plan.values[1]);
      plan.finishes.forEach((finish, r) => {
        if (rng.below(2) === 0) least[r] = Math.max(least[r], finish);
      });
      hours.again();
      const then = run(hours, 500);
      expect(then, `seed ${String(seed)}`).toBeLessThanOrEqual(plan.values[1]);
      expect(then, `seed ${String(seed)}`).toBeGreaterThanOrEqual(first);
    }
  });

  it('say more of made-up yards than their refits do one by one, and never more than a plan', () => {
    for (const seed of [1, 2, 3]) {
      const of = madeUpYard(seed, 12);
      const { finishes } = analyse(compile(of));
      const alone = finishes.reduce((sum, finish, r) => sum + of.refits[r].weight * finish, 0);
      const bound = run(priced(of), 1000);
      expect(bound).toBeGreaterThan(alone);
      expect(bound).toBeLessThanOrEqual(bestOf(of, 200).values[1]);
    }
  });
});
