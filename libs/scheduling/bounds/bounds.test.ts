import { describe, expect, it } from 'vitest';
import { bruteForce } from '../testing/brute.ts';
import { relabelled, shifted } from '../testing/laws.ts';
import { activity, builder, problem, work } from '../testing/make.ts';
import { smallProblem } from '../testing/small/small.ts';
import { plantedProblem, tinyProblem } from '../testing/planted.ts';
import { compile } from '../search/crew/compiled/compiled.ts';
import { createWhole } from '../search/whole/whole.ts';
import { madeUpYard } from '../testing/made-up-yard.ts';
import { analyse } from './critical-path.ts';
import { proveRoot } from './root.ts';
import { workedExample } from '../testing/worked-example.ts';

describe('critical path', () => {
  it('has the dates of the worked example', () => {
    const { domains, finishes } = analyse(compile(workedExample()));
    expect(finishes).toEqual([44]);
    expect([...domains.startFrom]).toEqual([0, 2, 6, 16, 16, 20, 22, 29, 16, 25, 33, 33, 38, 38]);
  });

  it('leaves every planted plan inside its domains', () => {
    for (let seed = 0; seed < 60; seed += 1) {
      const { problem: of, plan } = plantedProblem(seed, 4 + (seed % 37));
      const { domains, assumed, empty, deadChoice, finishes } = analyse(compile(of));
      const of1 = `seed ${String(seed)}`;
      expect([empty, deadChoice], of1).toEqual([-1, -1]);
      for (const { activity: a, start, finish } of plan.placements) {
        expect(start, of1).toBeGreaterThanOrEqual(domains.startFrom[a]);
        expect(start, of1).toBeLessThanOrEqual(domains.startTo[a]);
        expect(finish, of1).toBeGreaterThanOrEqual(domains.finishFrom[a]);
        expect(finish, of1).toBeLessThanOrEqual(domains.finishTo[a]);
      }
      plan.branches.forEach((b, c) => {
        expect(assumed.possible[c][b], of1).toBe(1);
      });
      finishes.forEach((finish, r) => {
        expect(finish, of1).toBeLessThanOrEqual(plan.finishes[r]);
      });
    }
  });

  it('is the same in other words, and as much later as everything else', () => {
    for (let seed = 0; seed < 12; seed += 1) {
      const { problem: of } = plantedProblem(seed, 4 + (seed % 20));
      const { finishes } = analyse(compile(of));
      expect(analyse(compile(relabelled(of, 5).problem)).finishes).toEqual(finishes);
      const later = analyse(compile(shifted(of, 777).problem)).finishes;
      const present = of.refits.map((_, r) => finishes[r] > 0);
      expect(later.filter((_, r) => present[r])).toEqual(
        finishes.filter((f) => f > 0).map((f) => f + 777),
      );
    }
  });
});

describe('bounds of the ranks', () => {
  it('never exceed the optimum of a tiny problem', () => {
    for (let seed = 0; seed < 60; seed += 1) {
      const { problem: of } = tinyProblem(seed, 2 + (seed % 5));
      const best = bruteForce(of);
      const { bounds, infeasible } = proveRoot(compile(of));
      expect(infeasible).toBe(false);
      if (!best) throw new Error('a planted problem has a plan');
      // Least in each rank with the earlier ones at their best: no less than least of all.
      bounds.forEach(({ bound }, rank) => {
        expect(bound, `seed ${String(seed)} rank ${String(rank)}`).toBeLessThanOrEqual(
          best.least[rank],
        );
      });
    }
  });

  it('never exceed what the whole search proves best, nor rule out what it finds', () => {
    let plans = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const of = smallProblem(seed);
      const { bounds, infeasible } = proveRoot(compile(of));
      const search = createWhole(of, 1, null, null);
      let state = search.step(0);
      while (!state.done && state.iterations < 3000) state = search.step(200);
      const { plan } = state;
      if (plan === null) continue;
      plans += 1;
      expect(infeasible, `seed ${String(seed)}`).toBe(false);
      bounds.forEach(({ bound }, rank) => {
        expect(bound, `seed ${String(seed)} rank ${String(rank)}`).toBeLessThanOrEqual(
          plan.values[rank],
        );
      });
    }
    expect(plans).toBeGreaterThan(20);
  });

  it('never exceed a planted plan', () => {
    const telling = [0, 0, 0, 0];
    for (let seed = 200; seed < 300; seed += 1) {
      const { problem: of, plan } = plantedProblem(seed, 4 + (seed % 37));
      const { bounds, infeasible } = proveRoot(compile(of));
      expect(infeasible, `seed ${String(seed)}`).toBe(false);
      bounds.forEach(({ bound }, rank) => {
        expect(bound, `seed ${String(seed)} rank ${String(rank)}`).toBeLessThanOrEqual(
          plan.values[rank],
        );
        if (bound > 0) telling[rank] += 1;
      });
    }
    expect(Math.min(...telling)).toBeGreaterThan(10);
  });

  it('count crew hours where people are short: two days of work for one builder', () => {
    // 450 working minutes a day: the refits end at 960 and at 2400 in either order.
    const of = problem({
      builders: [builder('Ada')],
      activities: [
        activity('one', [work(450, { splittable: true })], { refit: 0 }),
        activity('two', [work(450, { splittable: true })], { refit: 1 }),
      ],
      refits: [0, 1].map((r) => ({
        id: `refit-${String(r)}`,
        release: 0,
        due: 960,
        handovers: [],
        weight: 2,
        source: 'refit',
      })),
    });
    const { bounds } = proveRoot(compile(of));
    expect(bounds.slice(0, 2)).toEqual([
      { bound: 2 * (2400 - 960), caps: [], proof: 'crew-hours' },
      { bound: 2 * (960 + 2400), caps: [], proof: 'crew-hours' },
    ]);
  });

  it('price scarce skills apart: the programme sees that only one can laminate', () => {
    // Ada alone laminates; Bo could do all the sanding, so plain totals see no shortage.
    const laminate = (minutes: number): ReturnType<typeof work> =>
      work(minutes, { splittable: true, crew: [{ skill: 1, minLevel: 1, count: 1 }] });
    const of = problem({
      builders: [
        builder('Ada', {
          abilities: [0, 1].map((skill) => ({ skill, level: 1, speed: 100, needsSenior: false })),
        }),
        builder('Bo'),
      ],
      activities: [
        activity('coat', [laminate(450)]),
        activity('more', [laminate(300)]),
        activity('fit', [work(400, { splittable: true })]),
      ],
      refits: [{ id: 'refit', release: 0, due: null, handovers: [], weight: 1, source: 'refit' }],
    });
    const { bounds } = proveRoot(compile(of));
    // 750 minutes: 450 on the first day, 300 on the second, of which 240 before the break.
    expect(bounds[1]).toEqual({ bound: 2190 + 60, caps: [], proof: 'crew-hours' });
  });

  it('beats the critical path on a made-up yard', () => {
    const { bounds, analysis } = proveRoot(compile(madeUpYard(3, 14)));
    const path = analysis.finishes.reduce((sum, finish, r) => sum + (3 - r) * finish, 0);
    expect(bounds[1].proof).toBe('crew-hours');
    expect(bounds[1].bound).toBeGreaterThan(path);
  });
});
