import { describe, expect, it } from 'vitest';
import { check } from '../../checker/check.ts';
import { activity, lag, placed, plan, problem, work } from '../../testing/make.ts';
import { plantedProblem } from '../../testing/planted.ts';
import { compile } from './compiled.ts';
import { leftShift } from './left-shift.ts';

describe('left shift', () => {
  it('moves what waits for nothing to where something holds it', () => {
    const of = problem({
      activities: [activity('a', [work(60)]), activity('b', [work(60)])],
      lags: [lag(0, 1, 100)],
    });
    const late = plan(of, [placed(0, '600-660', [0]), placed(1, '1920-1980', [1])]);
    expect(leftShift(compile(of), late)).toEqual(
      plan(of, [placed(0, '480-540', [0]), placed(1, '640-700', [1])]),
    );
  });

  it('keeps the opener of a window within reach of a follow-up that is held', () => {
    const of = problem({
      activities: [activity('a', [work(60)]), activity('b', [work(60)], { release: 800 })],
      lags: [lag(0, 1, 100), lag(0, 1, 150, { bound: 'close' })],
    });
    const late = plan(of, [placed(0, '620-680', [0]), placed(1, '800-860', [1])]);
    expect(leftShift(compile(of), late).placements[0].start).toBe(590);
  });

  it('leaves planted plans right, no later, and with nothing left to shift', () => {
    for (let seed = 0; seed < 40; seed += 1) {
      const { problem: of, plan: planted } = plantedProblem(seed, 4 + (seed % 37));
      const compiled = compile(of);
      const shifted = leftShift(compiled, planted);
      expect(check(of, shifted), `seed ${String(seed)}`).toEqual([]);
      shifted.finishes.forEach((finish, r) => {
        expect(finish).toBeLessThanOrEqual(planted.finishes[r]);
      });
      expect(shifted.branches).toEqual(planted.branches);
      expect(leftShift(compiled, shifted).values, `seed ${String(seed)}`).toEqual(shifted.values);
    }
  });
});
