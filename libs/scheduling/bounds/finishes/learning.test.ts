import { describe, expect, it } from 'vitest';
import { check } from '../../checker/check.ts';
import { compile } from '../../search/crew/compiled/compiled.ts';
import { createWhole } from '../../search/whole/whole.ts';
import { crowd, slow, tight } from '../../search/whole/testing/crowd.ts';
import { analyse } from '../critical-path.ts';
import { LearnedPart } from './learning.ts';

describe('problems with more crews than are listed', () => {
  it('are not taken to have no plan where the quickest crew has none', () => {
    for (const { problem, plan } of [slow, tight]) {
      expect(check(problem, plan)).toEqual([]);
      const { status, bounds, done } = createWhole(problem, 1, null, null).step(3_000);
      expect(status).toBe('unknown');
      expect(done).toBe(true);
      bounds.forEach(({ bound }, r) => expect(bound).toBeLessThanOrEqual(plan.values[r]));
      const kept = createWhole(problem, 1, plan, null).step(3_000);
      expect(kept.status).toBe('feasible');
      expect(kept.done).toBe(true);
    }
  });

  it('have no part of which caps are refused that a plan keeps', () => {
    for (const { problem, plan } of [slow, tight]) {
      const until = plan.finishes[0];
      const part = new LearnedPart(analyse(compile(problem)), [0], until);
      while (!part.isReady) part.prepare();
      for (let k = 0; k < 40; k += 1) expect(part.attempt([until]).kind).toBe('open');
    }
  });

  it('are decided where the crews are equally good', () => {
    // Apart by another skill, so that they are counted by class.
    const alike = crowd(
      (b) => ({
        abilities: [
          { skill: 0, level: 1, speed: 100, needsSenior: false },
          { skill: 1, level: b + 1, speed: 100, needsSenior: false },
        ],
      }),
      { activities: tight.problem.activities },
    );
    const { status, plan } = createWhole(alike, 1, null, null).step(3_000);
    expect(status).toBe('optimal');
    expect(plan && check(alike, plan)).toEqual([]);
  });
});
