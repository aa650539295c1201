import { describe, expect, it } from 'vitest';
import { random } from '#kernel/random.ts';
import { compile } from '../../search/crew/compiled/compiled.ts';
import { activity, builder, lag, problem, work } from '../../testing/make.ts';
import { plantedProblem } from '../../testing/planted.ts';
import { analyse } from '../critical-path.ts';
import { LearnedPart, type Attempt } from './learning.ts';
import { refuter } from './refute.ts';

const refit = (id: number): ReturnType<typeof problem>['refits'][number] => ({
  id: `refit-${String(id)}`,
  release: 0,
  due: null,
  handovers: [],
  weight: 1,
  source: 'refit',
});

describe('refutation by the crew in days', () => {
  it('sees that two boats ask for more than the first day has, and for no more than two days', () => {
    // One builder works 450 minutes a day, from 480 to 960 and from 1920 to 2400.
    const of = problem({
      builders: [builder('Ada')],
      activities: [0, 1].map((r) =>
        activity(String(r), [work(240, { splittable: true })], { refit: r }),
      ),
      refits: [refit(0), refit(1)],
    });
    const refute = refuter(analyse(compile(of)));
    expect(refute([960, 960])).toBe(true);
    expect(refute([960, Infinity])).toBe(false);
    expect(refute([960, 1949])).toBe(true);
    expect(refute([960, 1950])).toBe(false);
  });

  it('counts only the days that lags leave', () => {
    // What follows a day later leaves one day for both boats' first tasks.
    const of = problem({
      builders: [builder('Ada')],
      activities: [
        activity('first', [work(240, { splittable: true })], { refit: 0 }),
        activity('then', [work(10, { splittable: true })], { refit: 0 }),
        activity('other', [work(240, { splittable: true })], { refit: 1 }),
      ],
      lags: [lag(0, 1, 1000)],
      refits: [refit(0), refit(1)],
    });
    const refute = refuter(analyse(compile(of)));
    expect(refute([2400, 960])).toBe(true);
    expect(refute([2400, 2400])).toBe(false);
  });

  it('refutes no caps that a planted plan keeps, and no part of them by learning', () => {
    let refusedByParts = 0;
    for (let seed = 0; seed < 60; seed += 1) {
      const { problem: of, plan } = plantedProblem(seed, 4 + (seed % 37));
      const analysis = analyse(compile(of));
      const refute = refuter(analysis);
      const rng = random(seed);
      const about = `seed ${String(seed)}`;
      for (let k = 0; k < 4; k += 1) {
        const caps = plan.finishes.map((finish) => (rng.below(3) === 0 ? Infinity : finish));
        expect(refute(caps), about).toBe(false);
      }
      if (seed % 3 !== 0) continue;
      const refits = of.refits.flatMap((_, r) =>
        plan.finishes[r] > 0 && rng.below(3) > 0 ? [r] : [],
      );
      if (refits.length === 0) continue;
      const latest = Math.max(...refits.map((r) => plan.finishes[r]));
      const part = new LearnedPart(analysis, refits, latest);
      for (const early of [0, 60]) {
        const caps = plan.finishes.map((finish) => Math.max(0, finish - early));
        while (!part.isReady) part.prepare();
        let attempt: Attempt = { kind: 'open' };
        for (let k = 0; k < 60 && attempt.kind === 'open' && part.conflicts < 60; k += 1)
          attempt = part.attempt(caps);
        if (attempt.kind !== 'refused') continue;
        refusedByParts += 1;
        const { refusal } = attempt;
        // In the plan some refit ends after its cap.
        expect(
          refusal.refits.some((r) => plan.finishes[r] > refusal.caps[r]),
          about,
        ).toBe(true);
      }
    }
    expect(refusedByParts).toBeGreaterThan(5);
  });
});
