import { describe, expect, it } from 'vitest';
import { check } from '#scheduling/checker/check.ts';
import { validate } from '#scheduling/model/validate.ts';
import { solve } from '#scheduling/solve.ts';
import { onGrid } from './grid.ts';
import { yardOnGrid } from './yard.ts';
import { madeUpYard } from '#scheduling/testing/made-up-yard.ts';

const yard = { tasks: 15, boats: 1, season: 'cold', tightness: 'tight', seed: 6 } as const;

describe('a problem on a grid', () => {
  it('is a sound problem of whole steps, with a plan', () => {
    const coarse = yardOnGrid(yard, 15);
    expect(validate(coarse)).toEqual([]);
    expect(coarse.horizon).toBe(Math.floor(yardOnGrid(yard, 1).horizon / 15));
    const { plan } = solve(coarse, { seed: 1, iterations: 30 });
    expect(plan && check(coarse, plan)).toEqual([]);
  });

  it('of one minute is the same but for money and what comes after', () => {
    const given = madeUpYard(2, 1);
    const same = onGrid(given, 1);
    expect(same.activities.map(({ modes }) => modes.map((mode) => mode.duration))).toEqual(
      given.activities.map(({ modes }) => modes.map((mode) => mode.duration)),
    );
    expect(same.calendars.map(({ shifts, breaks }) => [shifts, breaks])).toEqual(
      given.calendars.map(({ shifts, breaks }) => [shifts, breaks]),
    );
    expect(same.published).toBeNull();
    expect(validate(same)).toEqual([]);
  });

  it('never has work shorter, windows wider or people longer than it is', () => {
    const fine = yardOnGrid(yard, 1);
    const coarse = yardOnGrid(yard, 15);
    const minutes = (problem: typeof fine, step: number): number =>
      problem.calendars
        .flatMap(({ shifts }) => shifts)
        .reduce((sum, { start, end }) => sum + step * (end - start), 0);
    expect(minutes(coarse, 15)).toBeLessThanOrEqual(minutes(fine, 1));
    coarse.activities.forEach(({ modes }, a) => {
      modes.forEach((mode, m) => {
        const own = fine.activities[a].modes[m];
        expect(15 * mode.duration).toBeGreaterThanOrEqual(own.duration);
        expect(15 * mode.cleanDown).toBeGreaterThanOrEqual(own.cleanDown);
      });
    });
    coarse.lags.forEach((lag, l) => {
      const [fn] = lag.fns;
      const [own] = fine.lags[l].fns;
      if (fn.kind !== 'table' || own.kind !== 'table') return;
      const given = fine.tables[own.table].values;
      coarse.tables[fn.table].values.forEach((value, step) => {
        const minute = given[15 * step];
        if (value > coarse.horizon || minute > fine.horizon) return;
        if (lag.bound === 'open') expect(15 * value).toBeGreaterThanOrEqual(minute);
        else expect(15 * value).toBeLessThanOrEqual(minute);
      });
    });
  });
});
