import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import type { CureMaterial, Milestone, Side } from '../material/material.ts';
import { rateOf, type Rate } from '../material/rate.ts';
import { bands, histories, hundredths, stalling } from '../testing/arbitraries.ts';
import { cureMaterialOf, limitsOf, tableLaw } from '../testing/cure-material.ts';
import { cureClock, earliestStart, latestStart, reachedAt, type CureClock } from './cure-clock.ts';
import { ageAt, firstMinuteAt, type EquivalentAge } from './equivalent-age.ts';
import { celsiusAt, certain, coldest, warmest, type TemperatureSeries } from './series.ts';

const sides = fc.constantFrom<Side>('open', 'close');
const minutes = fc.integer({ min: -600, max: 4000 });
const name = (side: Side): Milestone => (side === 'open' ? 'bond-opens' : 'bond-closes');
const last = (minute: number | null): number => minute ?? Infinity;
const after = (clock: CureClock, t: number): number => last(reachedAt(clock, t));
const clockIn = (material: CureMaterial, side: Side, series: TemperatureSeries): CureClock =>
  cureClock(material, name(side), side, certain(series));
const cooled = (series: TemperatureSeries, by: number): TemperatureSeries => ({
  ...series,
  celsius: Array.from(series.celsius, (c) => c - by),
});

function rateFor(material: CureMaterial, side: Side): Rate {
  const law = material.milestones[name(side)];
  if (law?.kind !== 'table') throw new Error('generated without a table');
  return rateOf(law, side, material.limits.minimumC.value);
}

function ageOf({ by }: CureClock): EquivalentAge {
  if (by.kind !== 'age') throw new Error('generated with a conversion');
  return by.age;
}

/** All milestones of a material with other spreads. */
const spreadBy = (material: CureMaterial, spread: number): CureMaterial => ({
  ...material,
  milestones: Object.fromEntries(
    Object.entries(material.milestones).map(([key, law]) => [key, { ...law, spread }]),
  ),
});

describe('laws of the cure clock', () => {
  it('agrees with adding up the minutes one by one', () => {
    // Parts of a minute, each by its middle: steps change at whole minutes only, lines within.
    const PARTS = 8;
    fc.assert(
      fc.property(stalling, sides, histories, minutes, (material, side, series, t) => {
        const clock = clockIn(material, side, series);
        const rate = rateFor(material, side);
        const parts = series.shape === 'steps' ? 1 : PARTS;
        let fastest = 0;
        let gathered = 0;
        let before = 0;
        let minute = t;
        const limit = t + 6000;
        while (gathered < 1 - 1e-9 && minute < limit) {
          before = gathered;
          for (let part = 0; part < parts; part++) {
            const here = rate(celsiusAt(series, minute + (part + 0.5) / parts));
            fastest = Math.max(fastest, here);
            gathered += here / parts;
          }
          minute++;
        }
        const found = after(clock, t);
        // What the middles of parts miss of a line that passes a kink within one.
        const blur = series.shape === 'steps' ? 1e-9 : fastest / PARTS;
        if (minute === limit) {
          if (gathered < 1 - blur) expect(found).toBeGreaterThanOrEqual(limit);
        } else if (gathered > 1 + blur && before < 1 - blur) {
          expect(found).toBe(side === 'open' ? minute : minute - 1);
        } else {
          expect(Math.abs(found - minute)).toBeLessThanOrEqual(side === 'open' ? 1 : 2);
        }
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
          const clock = clockIn(material, side, series);
          expect(after(clock, t)).toBeLessThanOrEqual(after(clock, t + by));
          expect(after(clock, t)).toBeLessThanOrEqual(after(clock, t + 1));
          expect(after(clock, t)).toBeGreaterThanOrEqual(t);
        },
      ),
    );
  });

  it('opens and closes later in a colder place, and strictly so inside the rows', () => {
    const by = hundredths(0.5, 20);
    fc.assert(
      fc.property(stalling, sides, histories, minutes, by, (material, side, series, t, degrees) => {
        const warm = clockIn(material, side, series);
        const cold = clockIn(material, side, cooled(series, degrees));
        expect(after(cold, t)).toBeGreaterThanOrEqual(after(warm, t));
      }),
    );
    // 8 degrees colder between the rows of a strictly falling table: every start, both sides.
    const law = tableLaw([
      [2, 900],
      [15, 400],
      [30, 120],
    ]);
    const inside = fc.record({
      shape: fc.constantFrom<TemperatureSeries['shape']>('steps', 'lines'),
      start: fc.constant(0),
      step: fc.constant(10),
      celsius: fc.array(hundredths(10, 30), {
        minLength: 1,
        maxLength: 100,
      }),
    });
    fc.assert(
      fc.property(sides, inside, fc.nat(2000), (side, series, t) => {
        const material = cureMaterialOf({
          milestones: { [name(side)]: law },
          limits: limitsOf(0, 40),
        });
        const warm = clockIn(material, side, series);
        const cold = clockIn(material, side, cooled(series, 8));
        expect(after(cold, t)).toBeGreaterThan(after(warm, t));
      }),
    );
  });

  it('inverts: the latest start reaches the milestone in time and a minute later does not', () => {
    fc.assert(
      fc.property(stalling, sides, histories, minutes, (material, side, series, wanted) => {
        const clock = clockIn(material, side, series);
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

  it('inverts: the latest start for the minute of a film is that film or a later one as good', () => {
    fc.assert(
      fc.property(stalling, sides, histories, minutes, (material, side, series, t) => {
        const clock = clockIn(material, side, series);
        const reached = reachedAt(clock, t);
        if (reached === null) return;
        const latest = last(latestStart(clock, reached));
        expect(latest).toBeGreaterThanOrEqual(t);
        expect(after(clock, latest)).toBe(reached);
      }),
    );
  });

  it('gathers exactly one cure by the exact minute', () => {
    fc.assert(
      fc.property(stalling, sides, histories, minutes, (material, side, series, t) => {
        const age = ageOf(clockIn(material, side, series));
        const exact = firstMinuteAt(age, ageAt(age, t) + 1);
        if (exact !== Infinity) expect(ageAt(age, exact) - ageAt(age, t)).toBeCloseTo(1, 9);
      }),
    );
  });

  it('gathers as much over a history that is told in halves of its steps', () => {
    fc.assert(
      fc.property(stalling, sides, histories, minutes, (material, side, series, t) => {
        const { shape, start, step, celsius } = series;
        const halves: TemperatureSeries = {
          shape,
          start,
          step: step / 2,
          celsius: Array.from(
            { length: 2 * celsius.length - (shape === 'lines' ? 1 : 0) },
            (_, k) => celsiusAt(series, start + (k * step) / 2),
          ),
        };
        const [one, two] = [series, halves].map((told) => clockIn(material, side, told));
        // Between moments of the grid a part of a piece is good to a millionth of its minutes.
        const age = ageAt(ageOf(one), t);
        expect(Math.abs(ageAt(ageOf(two), t) - age)).toBeLessThan(1e-9 + 1e-6 * Math.abs(age));
        if (shape === 'steps') expect(after(two, t)).toBe(after(one, t));
      }),
    );
  });

  it('has what is expected between its sides, and sides apart as the spread is', () => {
    const spread = fc.double({ min: 1, max: 3, noNaN: true });
    fc.assert(
      fc.property(stalling, bands, minutes, spread, spread, (material, band, t, one, other) => {
        const of = (by: number, side: Side | 'expected'): number =>
          last(reachedAt(cureClock(spreadBy(material, by), 'bond-opens', side, band), t));
        const [less, more] = [Math.min(one, other), Math.max(one, other)];
        expect(of(less, 'close')).toBeLessThanOrEqual(of(less, 'expected'));
        expect(of(less, 'expected')).toBeLessThanOrEqual(of(less, 'open'));
        expect(of(more, 'close')).toBeLessThanOrEqual(of(less, 'close'));
        expect(of(more, 'open')).toBeGreaterThanOrEqual(of(less, 'open'));
        expect(of(more, 'expected')).toBe(of(less, 'expected'));
      }),
    );
  });

  it('bounds a part that moves between two climates at any moment', () => {
    const twins = histories.chain((one) =>
      fc.tuple(
        fc.constant({ ...one, shape: 'steps' as const }),
        fc.array(hundredths(-15, 55), {
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
          after(clockIn(material, 'open', series), t);
        const closes = (series: TemperatureSeries): number =>
          after(clockIn(material, 'close', series), t);
        expect(opens(coldest([one, other]))).toBeGreaterThanOrEqual(opens(path));
        expect(closes(warmest([one, other]))).toBeLessThanOrEqual(closes(path));
      }),
    );
  });
});
