import { describe, expect, it } from 'vitest';
import { check } from '../../checker/check.ts';
import type { Problem } from '../../model/problem.ts';
import { toPureModel } from '../exact/pure.ts';
import { drawPure, enumerateBest } from '../exact/testing/tiny.ts';
import { improve } from './improve.ts';
import { createPopulation } from './population.ts';
import { drawProject } from './testing/draw-project.ts';

const PROJECT = { count: 40, resources: 3, most: 9, longest: 9 };

const finishOf = (problem: Problem, seed: number, iterations: number): number => {
  const { plan } = createPopulation(problem, seed, null).step(iterations);
  expect(plan, `seed ${seed}`).not.toBeNull();
  if (plan === null) return Infinity;
  expect(check(problem, plan), `seed ${seed}`).toEqual([]);
  return plan.finishes[0];
};

describe('population search', () => {
  it('finds what trying every start finds, never better, and mostly as good', () => {
    let solvable = 0;
    let best = 0;
    for (let seed = 1; seed <= 120; seed++) {
      const problem = drawPure(seed);
      const known = enumerateBest(problem);
      const { plan, status } = createPopulation(problem, seed, null).step(10);
      if (known === null) {
        expect(plan, `seed ${seed}`).toBeNull();
        continue;
      }
      solvable++;
      expect(status, `seed ${seed}`).not.toBe('infeasible');
      if (plan === null) continue;
      expect(check(problem, plan), `seed ${seed}`).toEqual([]);
      expect(plan.finishes[0], `seed ${seed}`).toBeGreaterThanOrEqual(known.makespan);
      if (status === 'optimal') expect(plan.finishes[0], `seed ${seed}`).toBe(known.makespan);
      if (plan.finishes[0] === known.makespan) best++;
    }
    expect(solvable).toBeGreaterThan(50);
    expect(best / solvable).toBeGreaterThan(0.9);
  });

  it('makes right plans for projects, which get shorter with time', () => {
    for (let seed = 1; seed <= 6; seed++) {
      const problem = drawProject(seed, PROJECT);
      expect(finishOf(problem, seed, 40)).toBeLessThanOrEqual(finishOf(problem, seed, 1));
    }
  });

  it('gives the same for the same seed, however the steps are cut', () => {
    const problem = drawProject(3, PROJECT);
    const cut = createPopulation(problem, 5, null);
    for (let k = 0; k < 10; k++) cut.step(7);
    expect(cut.step(0)).toEqual(createPopulation(problem, 5, null).step(70));
  });

  it('takes a plan from elsewhere for its own where that is shorter', () => {
    const problem = drawProject(4, PROJECT);
    const { plan } = createPopulation(problem, 1, null).step(80);
    const other = createPopulation(problem, 2, null);
    other.receive(plan, other.step(1).bounds);
    expect(other.step(0).plan?.finishes[0]).toBeLessThanOrEqual(plan?.finishes[0] ?? 0);
    expect(createPopulation(problem, 2, plan).step(0).plan).toEqual(plan);
  });

  it('proves nothing but what the root shows', () => {
    const problem = { ...drawPure(1), horizon: 1 };
    expect(enumerateBest(problem)).toBeNull();
    expect(createPopulation(problem, 1, null).step(1).status).toBe('infeasible');
  });

  it('does not notice on which clock the times are', () => {
    const problem = drawProject(7, PROJECT);
    const slow = {
      ...problem,
      horizon: 60 * problem.horizon,
      activities: problem.activities.map((a) => ({
        ...a,
        modes: a.modes.map((m) => ({ ...m, duration: 60 * m.duration })),
      })),
    };
    expect(finishOf(slow, 1, 30)).toBe(60 * finishOf(problem, 1, 30));
  });
});

describe('improve', () => {
  it('does exactly the passes asked for unless the bound is met, and the same again', () => {
    const model = toPureModel(drawProject(9, { ...PROJECT, count: 60 }));
    const once = improve(model, 3, 777);
    expect(once).toEqual(improve(model, 3, 777));
    const isShortest = once !== null && once.schedules < 777;
    expect(isShortest || once?.schedules === 777).toBe(true);
  });
});
