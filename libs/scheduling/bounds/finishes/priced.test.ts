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
import { CAPS, capsOf, pricedHours, type PricedHours } from './priced.ts';
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

describe('moments by which a refit may be asked to finish', () => {
  it('are few however long the yard is, the last day and the horizon among them', () => {
    for (const length of [0, 1, 7, 53, 79, 80, 81, 160, 400, 1000]) {
      const days = Array.from({ length }, (_, d) => [1440 * d, 1440 * d + 480] as const);
      const horizon = 1440 * length + 60;
      const caps = capsOf(days, horizon);
      expect(caps.length, String(length)).toBeLessThanOrEqual(CAPS);
      expect(caps.length, String(length)).toBeGreaterThan(Math.min(length, CAPS / 4));
      expect(caps).toEqual([...caps].sort((a, b) => a - b));
      expect(caps.at(-1)).toBe(horizon);
      if (length > 0) expect(caps.at(-2)).toBe(1440 * (length - 1) + 480);
    }
  });
});

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

  it('say no less than the least finishes of a long yard of many boats', () => {
    const yard = madeUpYard(2, 28);
    const of: Problem = {
      ...yard,
      activities: yard.activities.map((one, a) => ({ ...one, refit: Math.floor(a / 9) })),
      refits: Array.from({ length: 28 }, (_, r) => ({
        ...yard.refits[0],
        id: `boat ${String(r)}`,
        weight: 1 + (r % 3),
      })),
    };
    const { finishes } = analyse(compile(of));
    const alone = finishes.reduce((sum, finish, r) => sum + of.refits[r].weight * finish, 0);
    const hours = priced(of);
    for (let bought = 0; bought < 10 && !hours.done;) {
      const { looks, changes } = hours.counts;
      hours.step();
      // One boat each time, with 160 caps, 64 days and a few pieces of work.
      expect(hours.counts.looks - looks).toBeLessThan(160 * 64 * 40);
      bought = hours.counts.changes;
      expect(bought - changes).toBeLessThan(2);
    }
    expect(hours.counts.windows).toBeGreaterThan(3000);
    expect(hours.bound).toBeGreaterThanOrEqual(alone);
  });
});
