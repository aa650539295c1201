import { describe, expect, it } from 'vitest';
import { check } from '../../checker/check.ts';
import type { SearchState } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { createExact, type ExactOptions } from './exact.ts';
import { isPure } from './pure.ts';
import type { ClauseObserver } from './search.ts';
import { drawPure, enumerateBest } from './testing/tiny.ts';

const LIMIT = 20_000;
const seeds = (first: number, count: number): number[] =>
  Array.from({ length: count }, (_, k) => first + k);

const solve = (problem: Problem, options: ExactOptions = {}): SearchState =>
  createExact(problem, 1, null, options).step(LIMIT);

describe('against trying every start', () => {
  for (const withoutLists of [false, true]) {
    it(`gives the same verdict and makespan, ${withoutLists ? 'search alone' : 'lists first'}`, () => {
      let infeasible = 0;
      for (const seed of seeds(withoutLists ? 5000 : 1, 250)) {
        const problem = drawPure(seed);
        const expected = enumerateBest(problem);
        const state = solve(problem, { withoutLists });
        expect(state.status, `seed ${seed}`).toBe(expected === null ? 'infeasible' : 'optimal');
        expect(state.plan?.finishes[0], `seed ${seed}`).toBe(expected?.makespan);
        if (state.plan === null) infeasible++;
        else {
          expect(check(problem, state.plan), `seed ${seed}`).toEqual([]);
          expect(
            state.bounds.map(({ bound }) => bound),
            `seed ${seed}`,
          ).toEqual(state.plan.values);
        }
      }
      // The draw must keep exercising both verdicts.
      expect(infeasible).toBeGreaterThan(20);
      expect(infeasible).toBeLessThan(200);
    });
  }
});

/** Whether the plan's starts, makespan and orders make some literal of the clause true. */
function satisfies(
  clause: Parameters<ClauseObserver>[0],
  layout: Parameters<ClauseObserver>[1],
  starts: readonly number[],
  makespan: number,
): boolean {
  const valueOf = (x: number): number => {
    if (x < layout.tasks) return starts[x];
    if (x === layout.end) return makespan;
    const { first, second } = layout.pairs[x - layout.firstPair];
    return starts[first] < starts[second] ? 1 : 0;
  };
  for (let k = 0; k < clause.size; k++) {
    const value = valueOf(clause.bounds[k] >> 1);
    if ((clause.bounds[k] % 2 === 0 ? value : -value) >= clause.values[k]) return true;
  }
  return false;
}

describe('learned clauses', () => {
  it('are all satisfied by a known optimal plan, as long as the target allows it', () => {
    let checked = 0;
    for (const seed of seeds(20_000, 300)) {
      const problem = drawPure(seed, { fewest: 7, most: 9, horizon: 26 });
      const known = solve(problem).plan;
      if (known === null) continue;
      const starts = known.placements.map((p) => p.start);
      const makespan = known.finishes[0];
      let best = Infinity;
      const solver = createExact(problem, 1, null, {
        withoutLists: true,
        energy: seed % 2 === 0,
        observer: (clause, layout) => {
          if (best <= makespan) return;
          checked++;
          expect(satisfies(clause, layout, starts, makespan), `seed ${seed}`).toBe(true);
        },
      });
      for (let state = solver.step(1); ; state = solver.step(1)) {
        best = state.plan?.finishes[0] ?? Infinity;
        if (state.done) {
          expect(best, `seed ${seed}`).toBe(makespan);
          break;
        }
      }
    }
    expect(checked).toBeGreaterThan(100);
  });
});

describe('what a caller may rely on', () => {
  it('the same seed and iterations give the same state, in whatever portions', () => {
    for (const seed of seeds(300, 10)) {
      const problem = drawPure(seed, { fewest: 9, most: 12, horizon: 60 });
      const whole = createExact(problem, 7, null).step(60);
      const portions = createExact(problem, 7, null);
      for (let k = 0; k < 19; k++) portions.step(3);
      expect(portions.step(3), `seed ${seed}`).toEqual(whole);
    }
  });

  it('the bound never falls and the plan never gets worse', () => {
    for (const seed of seeds(600, 20)) {
      const solver = createExact(drawPure(seed, { fewest: 9, most: 12, horizon: 60 }), 1, null);
      let last = solver.step(1);
      while (!last.done) {
        const state = solver.step(1);
        expect(state.bounds[1].bound).toBeGreaterThanOrEqual(last.bounds[1].bound);
        expect(state.plan?.values[1] ?? Infinity).toBeLessThanOrEqual(
          last.plan?.values[1] ?? Infinity,
        );
        last = state;
      }
    }
  });

  it('starting from an optimal plan only proves it', () => {
    for (const seed of seeds(900, 30)) {
      const problem = drawPure(seed);
      const { plan } = solve(problem);
      if (plan === null) continue;
      const again = createExact(problem, 2, plan).step(LIMIT);
      expect(again.plan, `seed ${seed}`).toEqual(plan);
      expect(again.status, `seed ${seed}`).toBe('optimal');
    }
  });

  it('times a common factor, the makespan is that much longer', () => {
    for (const seed of seeds(1200, 30)) {
      const problem = drawPure(seed);
      const minutes = solve(scaled(problem, 15));
      expect(minutes.status, `seed ${seed}`).toBe(solve(problem).status);
      expect(minutes.plan?.finishes[0], `seed ${seed}`).toBe(problemMakespan(solve(problem), 15));
    }
  });
});

describe('edges', () => {
  const base = drawPure(1);
  const with1 = (change: Partial<Problem>): Problem => ({
    ...base,
    lags: [],
    activities: base.activities.slice(0, 1).map((a) => ({
      ...a,
      refit: 0,
      releases: [{ at: 2, kind: 'boat', source: '' }],
      modes: [{ ...a.modes[0], duration: 3, demands: [] }],
    })),
    ...change,
  });

  it('nothing to do is done at once', () => {
    const state = solve(with1({ activities: [] }));
    expect([state.status, state.plan?.finishes]).toEqual(['optimal', [0]]);
  });

  it('a release and a duration', () => {
    expect(solve(with1({})).plan?.finishes).toEqual([5]);
    expect(solve(with1({ horizon: 5 })).status).toBe('optimal');
    expect(solve(with1({ horizon: 4 })).status).toBe('infeasible');
  });

  it('a demand that is never there, a lag from an activity to itself', () => {
    const [activity] = with1({}).activities;
    const [mode] = activity.modes;
    const amount = base.resources[0].steps[0].capacity + 1;
    const demands = [{ resource: 0, amount, keptWhilePaused: false }];
    expect(
      solve(with1({ activities: [{ ...activity, modes: [{ ...mode, demands }] }] })).status,
    ).toBe('infeasible');
    const lag = {
      ...base.lags[0],
      from: 0,
      fromAnchor: 'start',
      to: 0,
      toAnchor: 'finish',
      bound: 'open',
    } as const;
    expect(
      solve(with1({ lags: [{ ...lag, fns: [{ kind: 'constant', minutes: 3 }] }] })).status,
    ).toBe('optimal');
    expect(
      solve(with1({ lags: [{ ...lag, fns: [{ kind: 'constant', minutes: 4 }] }] })).status,
    ).toBe('infeasible');
  });

  it('takes pure problems only', () => {
    expect(isPure(base)).toBe(true);
    const [activity] = base.activities;
    const [mode] = activity.modes;
    const impure: Partial<Problem>[] = [
      { refits: [{ ...base.refits[0], due: 5 }] },
      { refits: [...base.refits, base.refits[0]] },
      {
        resources: [
          {
            ...base.resources[0],
            steps: [
              { from: 0, capacity: 1 },
              { from: 3, capacity: 2 },
            ],
          },
        ],
      },
      { activities: [{ ...activity, modes: [mode, mode] }] },
      {
        activities: [
          { ...activity, modes: [{ ...mode, crew: [{ skill: 0, minLevel: 1, count: 1 }] }] },
        ],
      },
      ...(
        [
          { forbidden: [{ anchor: 'start', spans: [], kind: 'dew', source: '' }] },
          { consumes: [{ stock: 0, amount: 1 }] },
          { slots: 0 },
          { movesTo: 0 },
          { barrier: { barrier: 0, closes: true } },
          { cost: 1 },
        ] as const
      ).map((given) => ({ activities: [{ ...activity, modes: [{ ...mode, ...given }] }] })),
      { activities: [{ ...activity, parts: [0] }] },
      { resources: [{ ...base.resources[0], calendar: 0 }] },
      {
        holds: [{ id: 'h', activity: 0, resource: 0, amount: 1, ends: [], source: '' }],
      },
      { published: { tolerance: 0, tasks: [] } },
      {
        activities: [
          { ...activity, fixed: { kind: 'set', start: 1, finish: null, builders: null } },
        ],
      },
      { lags: [{ ...base.lags[0], fns: [{ kind: 'table', table: 0 }] }] },
      { choices: [{ id: 'c', branches: [], source: '' }] },
    ];
    for (const change of impure)
      expect(isPure({ ...base, ...change }), JSON.stringify(change)).toBe(false);
  });
});

const problemMakespan = (state: SearchState, factor: number): number | undefined =>
  state.plan === null ? undefined : state.plan.finishes[0] * factor;

function scaled(problem: Problem, factor: number): Problem {
  return {
    ...problem,
    horizon: problem.horizon * factor + factor - 1,
    activities: problem.activities.map((a) => ({
      ...a,
      releases: a.releases.map((release) => ({ ...release, at: release.at * factor })),
      modes: a.modes.map((mode) => ({ ...mode, duration: mode.duration * factor })),
    })),
    lags: problem.lags.map((lag) => ({
      ...lag,
      fns: lag.fns.map((fn) =>
        fn.kind === 'constant' ? { kind: 'constant', minutes: fn.minutes * factor } : fn,
      ),
    })),
  };
}
