import { describe, expect, it } from 'vitest';
import type { Infeasibility } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { activity, lag, mode, problem, work } from '../testing/make.ts';
import { plantedProblem } from '../testing/planted.ts';
import { compile } from '../search/crew/compiled.ts';
import { proveRoot } from './root.ts';

function why(of: Problem): Infeasibility {
  const { infeasibility } = proveRoot(compile(of));
  if (!infeasibility) throw new Error('no proof');
  return infeasibility;
}

const idle = activity('idle', [work(30)]);

describe('proofs that there is no plan', () => {
  it('names a task longer than any shift', () => {
    const found = why(
      problem({ activities: [idle, activity('coat', [work(500)])], lags: [lag(0, 1, 0)] }),
    );
    expect(found).toMatchObject({ activities: [1], lags: [], irreducible: true });
    expect(found.reason).toContain('500 minutes');
    expect(found.reason).toContain('480');
  });

  it('names a circle of lags and by how much it is too long', () => {
    const found = why(
      problem({
        activities: [
          idle,
          activity('a', [work(60)]),
          activity('b', [work(60)]),
          activity('c', [work(60)]),
        ],
        lags: [lag(0, 1, 0), lag(1, 2, 5), lag(2, 3, 5), lag(3, 1, 5)],
      }),
    );
    expect(found).toMatchObject({ activities: [1, 2, 3], lags: [1, 2, 3], irreducible: true });
    expect(found.reason).toContain('circle');
  });

  it('names a window that cannot open', () => {
    // Hard after 1500 minutes, but the bond closes after 900.
    const found = why(
      problem({
        activities: [idle, activity('coat', [work(60)]), activity('next', [work(60)])],
        lags: [
          lag(0, 1, 0),
          lag(1, 2, 1500, { kind: 'sand' }),
          lag(1, 2, 900, { bound: 'close', kind: 'bond' }),
        ],
      }),
    );
    expect(found).toMatchObject({ activities: [1, 2], lags: [1, 2], irreducible: true });
  });

  it('names a window that the shifts do not meet, with both minutes', () => {
    // The follow-up may start 1000 to 1100 minutes after the coat's finish: by night, whenever it was done.
    const found = why(
      problem({
        activities: [activity('coat', [work(60)], { release: 800 }), activity('next', [work(60)])],
        lags: [lag(0, 1, 200), lag(0, 1, 400, { bound: 'close' })],
        horizon: 1400,
      }),
    );
    expect(found.activities).toEqual([0, 1]);
    expect(found.lags.length).toBeGreaterThan(0);
    expect(found.reason).toMatch(/minute \d+/);
  });

  it('says that nobody has the skill', () => {
    const crew = [{ skill: 1, minLevel: 2, count: 1 }];
    const found = why(problem({ activities: [idle, activity('tab', [work(60, { crew })])] }));
    expect(found).toMatchObject({ activities: [1], lags: [] });
    expect(found.reason).toContain('sanding');
  });

  it('says that a choice has no branch left', () => {
    const long = work(500);
    const found = why(
      problem({
        activities: [idle, activity('key', [long]), activity('peel', [long])],
        choices: [
          {
            id: 'bond',
            source: 'bond',
            branches: [
              { id: 'key', activities: [1], lags: [] },
              { id: 'peel', activities: [2], lags: [] },
            ],
          },
        ],
      }),
    );
    expect(found.activities).toEqual([1, 2]);
    expect(found.reason).toContain('choice bond');
  });

  it('names what the horizon cuts off', () => {
    const found = why(
      problem({
        activities: [
          activity('cure', [mode({ duration: 2000 })]),
          activity('after', [mode({ duration: 2000 })]),
        ],
        lags: [lag(0, 1, 0)],
      }),
    );
    expect(found).toMatchObject({ activities: [0, 1], lags: [0], irreducible: true });
  });

  it('names history that breaks a rule', () => {
    const frozen = (start: number): Problem['activities'][number]['fixed'] => ({
      kind: 'frozen',
      start,
      finish: start + 60,
      builders: [0],
    });
    const found = why(
      problem({
        activities: [
          activity('a', [work(60)], { fixed: frozen(500) }),
          activity('b', [work(60)], { fixed: frozen(560) }),
          idle,
        ],
        lags: [lag(0, 1, 30)],
      }),
    );
    expect(found).toMatchObject({ activities: [0, 1], lags: [0], irreducible: true });
  });

  it('is silent where there is a plan', () => {
    for (let seed = 0; seed < 40; seed += 1)
      expect(
        proveRoot(compile(plantedProblem(seed, 4 + (seed % 30)).problem)).infeasibility,
      ).toBeNull();
  });
});
