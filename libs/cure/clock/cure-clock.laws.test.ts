import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import type { Milestone, Side } from '../material/material.ts';
import { rateOf } from '../material/rate.ts';
import { histories, stalling } from '../testing/arbitraries.ts';
import { cureClock, earliestStart, latestStart, reachedAt, type CureClock } from './cure-clock.ts';
import { firstMinuteAt, ageAt } from './equivalent-age.ts';
import { lagTable } from './lag-table.ts';
import { celsiusAt, coldest, warmest, type TemperatureSeries } from './series.ts';

const sides = fc.constantFrom<Side>('open', 'close');
const minutes = fc.integer({ min: -600, max: 4000 });
const name = (side: Side): Milestone => (side === 'open' ? 'bond-opens' : 'bond-closes');
const last = (minute: number | null): number => minute ?? Infinity;
const after = (clock: CureClock, t: number): number => last(reachedAt(clock, t));
const cooled = (series: TemperatureSeries, by: number): TemperatureSeries => ({
  ...series,
  celsius: Array.from(series.celsius, (c) => c - by),
});

describe('laws of the cure clock', () => {
  it('agrees with adding up the minutes one by one', () => {
    fc.assert(
      fc.property(stalling, sides, histories, minutes, (material, side, series, t) => {
        const clock = cureClock(material, name(side), side, series);
        const table = material.milestones[name(side)];
        if (table === undefined) throw new Error('generated without a table');
        const rate = rateOf(table, side, material.minimumC);
        let gathered = 0;
        let minute = t;
        // Minutes are whole in every generated grid, so the last whole minute before the
        // milestone is a closing and the first after it an opening.
        const limit = t + 20_000;
        while (gathered + rate(celsiusAt(series, minute)) < 1 - 1e-9 && minute < limit) {
          gathered += rate(celsiusAt(series, minute));
          minute++;
        }
        const found = after(clock, t);
        if (minute === limit) expect(found).toBeGreaterThanOrEqual(limit);
        else if (side === 'open') expect(found).toBe(minute + 1);
        else expect(found === minute || found === minute + 1).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  it('never reaches a milestone earlier for a later start', () => {
    fc.assert(
      fc.property(
        stalling,
        sides,
        histories,
        minutes,
        fc.nat(2000),
        (material, side, series, t, by) => {
          const clock = cureClock(material, name(side), side, series);
          expect(after(clock, t)).toBeLessThanOrEqual(after(clock, t + by));
          expect(after(clock, t)).toBeGreaterThanOrEqual(t);
        },
      ),
    );
  });

  it('opens and closes later in a colder place, and strictly so inside the rows', () => {
    const by = fc.double({ min: 0.5, max: 20, noNaN: true });
    fc.assert(
      fc.property(stalling, sides, histories, minutes, by, (material, side, series, t, degrees) => {
        const warm = cureClock(material, name(side), side, series);
        const cold = cureClock(material, name(side), side, cooled(series, degrees));
        expect(after(cold, t)).toBeGreaterThanOrEqual(after(warm, t));
      }),
    );
    // 8 degrees colder between the rows of a strictly falling table: every start, both sides.
    const rows = [
      { celsius: 2, minutes: 900 },
      { celsius: 15, minutes: 400 },
      { celsius: 30, minutes: 120 },
    ];
    const inside = fc.record({
      start: fc.constant(0),
      step: fc.constant(10),
      celsius: fc.array(fc.double({ min: 10, max: 30, noNaN: true }), {
        minLength: 1,
        maxLength: 100,
      }),
    });
    fc.assert(
      fc.property(sides, inside, fc.nat(2000), (side, series, t) => {
        const material = {
          id: 'm',
          name: 'Strict',
          milestones: { [name(side)]: { rows, source: 'test' } },
          minimumC: 0,
          belowMinimum: 'stalls' as const,
          maximumC: 40,
        };
        const warm = cureClock(material, name(side), side, series);
        const cold = cureClock(material, name(side), side, cooled(series, 8));
        expect(after(cold, t)).toBeGreaterThan(after(warm, t));
      }),
    );
  });

  it('inverts: the latest start reaches the milestone in time and a minute later does not', () => {
    fc.assert(
      fc.property(stalling, sides, histories, minutes, (material, side, series, wanted) => {
        const clock = cureClock(material, name(side), side, series);
        const latest = latestStart(clock, wanted);
        if (latest === null) {
          expect(after(clock, series.start - 100_000)).toBeGreaterThan(wanted);
          expect(earliestStart(clock, wanted + 1)).toBe(-Infinity);
          return;
        }
        expect(after(clock, latest)).toBeLessThanOrEqual(wanted);
        expect(after(clock, latest + 1)).toBeGreaterThan(wanted);
        expect(earliestStart(clock, wanted + 1)).toBe(latest + 1);
      }),
    );
  });

  it('gathers exactly one cure by the exact minute', () => {
    fc.assert(
      fc.property(stalling, sides, histories, minutes, (material, side, series, t) => {
        const { age } = cureClock(material, name(side), side, series);
        const exact = firstMinuteAt(age, ageAt(age, t) + 1);
        if (exact !== Infinity) expect(ageAt(age, exact) - ageAt(age, t)).toBeCloseTo(1, 9);
      }),
    );
  });

  it('makes lag tables of non-decreasing whole minutes up to horizon + 1', () => {
    fc.assert(
      fc.property(
        stalling,
        sides,
        histories,
        fc.constantFrom(1, 5, 15),
        (material, side, series, grid) => {
          const horizon = 1000;
          const values = lagTable(cureClock(material, name(side), side, series), grid, horizon);
          expect(values.length).toBe(Math.ceil(horizon / grid) + 1);
          const holds = (value: number, k: number): boolean =>
            Number.isInteger(value) &&
            value <= horizon + 1 &&
            value >= Math.min(k * grid, horizon + 1) &&
            (k === 0 || value >= values[k - 1]);
          expect(values.every(holds)).toBe(true);
        },
      ),
    );
  });

  it('bounds a part that moves between two climates at any moment', () => {
    const twins = histories.chain((one) =>
      fc.tuple(
        fc.constant(one),
        fc.array(fc.double({ min: -15, max: 55, noNaN: true }), {
          minLength: one.celsius.length,
          maxLength: one.celsius.length,
        }),
        fc.array(fc.boolean(), { minLength: one.celsius.length, maxLength: one.celsius.length }),
      ),
    );
    fc.assert(
      fc.property(stalling, twins, minutes, (material, [one, celsius, where], t) => {
        const other = { ...one, celsius };
        const path = { ...one, celsius: where.map((first, k) => (first ? one : other).celsius[k]) };
        const opens = (series: TemperatureSeries): number =>
          after(cureClock(material, 'bond-opens', 'open', series), t);
        const closes = (series: TemperatureSeries): number =>
          after(cureClock(material, 'bond-closes', 'close', series), t);
        expect(opens(coldest([one, other]))).toBeGreaterThanOrEqual(opens(path));
        expect(closes(warmest([one, other]))).toBeLessThanOrEqual(closes(path));
      }),
    );
  });
});
