import { describe, expect, it } from 'vitest';
import { check } from '../checker/check.ts';
import type { Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { solve } from '../solve.ts';
import {
  activity,
  builder,
  lag,
  mode,
  placed,
  plan as planOf,
  problem,
  work,
} from '../testing/make.ts';
import { plantedProblem } from '../testing/planted.ts';
import { letters, workedExample } from '../testing/worked-example.ts';
import { eased, easingOf, keepsPlans } from './easing.ts';
import { justify } from './justify.ts';
import { shortening, type Lever, type Replan } from './shortening.ts';

const searched = (of: Problem, warmStart: Plan): Plan | null =>
  solve(of, { seed: 1, iterations: 24, warmStart }).plan;

describe('what would shorten a plan most', () => {
  it('ranks the arcs of the worked example by what each holds back', () => {
    const of = workedExample();
    const starts = [0, 2, 6, 16, 16, 20, 22, 29, 16, 25, 33, 33, 38, 38];
    const minutes = (a: number): number => of.activities[a].modes[0].duration;
    const plan = planOf(
      of,
      starts.map((s, a) => placed(a, `${String(s)}-${String(s + minutes(a))}`)),
    );
    const told = ({ constraint, earlier }: Lever): string =>
      constraint.kind === 'lag'
        ? `${letters[of.lags[constraint.lag].from]}${letters[of.lags[constraint.lag].to]} ${String(earlier[0])}`
        : constraint.kind;
    // Longest paths with that arc left out, reckoned by hand: without BC, DGHM is 10 + 6 + 7 + 9 + 2.
    expect(shortening(of, plan, justify).map(told).toSorted()).toEqual(
      ['AB 2', 'BC 6', 'CE 2', 'EF 2', 'FJ 2', 'JL 1', 'LN 1'].toSorted(),
    );
    expect(told(shortening(of, plan, justify)[0])).toBe('BC 6');
  });

  it('tells another pair of hands from another tool and from the cure', () => {
    const stand = { resource: 0, amount: 1, keptWhilePaused: true };
    const of = problem({
      resources: [
        { id: 'stand', steps: [{ from: 0, capacity: 1 }], calendar: null, source: 'stand' },
      ],
      builders: [builder('ann')],
      activities: [
        activity('sand', [work(60)]),
        activity('fair', [work(60)]),
        activity('clamp', [{ ...mode({ duration: 30 }), demands: [stand] }]),
      ],
      lags: [lag(1, 2, 45)],
    });
    const best = solve(of, { seed: 1, iterations: 200 }).plan;
    if (best === null) throw new Error('there is a plan');
    const levers = shortening(of, best, searched);
    const by = (kind: string): number =>
      levers.find(({ constraint }) => constraint.kind === kind)?.earlier[0] ?? 0;
    // Fair 0-60, cure 45, clamp 30: 135 after the shift begins; the sanding beside it ends at 120.
    expect(by('lag')).toBe(15);
    expect(by('builder')).toBe(0);
    expect(by('resource')).toBe(0);
  });

  it('finds that one more builder lets two work at once', () => {
    const of = problem({
      builders: [builder('ann')],
      activities: [activity('sand', [work(60)]), activity('fair', [work(60)])],
    });
    const best = solve(of, { seed: 1, iterations: 200 }).plan;
    if (best === null) throw new Error('there is a plan');
    const levers = shortening(of, best, searched);
    const told = levers.map(({ constraint, easing, earlier }) => [
      constraint.kind,
      easing,
      earlier[0],
    ]);
    // Her shift begins at 480: without it both are done by 120, with a colleague by 540.
    expect(told).toEqual([
      ['calendar', 'without', 480],
      ['builder', 'one-more', 60],
    ]);
  });

  it('eases planted problems so that their plan is one still, and never shows a loss as a gain', () => {
    let levers = 0;
    for (let seed = 0; seed < 8; seed += 1) {
      const { problem: of, plan } = plantedProblem(seed, 20);
      const replan: Replan = (eased, from) => {
        const found = searched(eased, from);
        expect(found === null ? [] : check(eased, found), `seed ${String(seed)}`).toEqual([]);
        return found;
      };
      for (const { constraint, easing, lateness, finishes } of shortening(of, plan, replan)) {
        levers += 1;
        expect(lateness > 0 || (lateness === 0 && finishes > 0)).toBe(true);
        expect(easingOf(of, constraint)).toBe(easing);
        if (keepsPlans(constraint))
          expect(check(eased(of, constraint), plan), `seed ${String(seed)}`).toEqual([]);
      }
    }
    expect(levers).toBeGreaterThan(5);
  });
});
