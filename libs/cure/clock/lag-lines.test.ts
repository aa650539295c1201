import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import type { ConversionLaw, Side } from '../material/material.ts';
import { histories, stalling } from '../testing/arbitraries.ts';
import { cureMaterialOf, limitsOf, tableLaw } from '../testing/cure-material.ts';
import { pipeCoating } from '../testing/published.ts';
import { cureClock, reachedAt, type CureClock } from './cure-clock.ts';
import { lagLines, type Lines } from './lag-lines.ts';
import { certain, constantBand, type TemperatureSeries } from './series.ts';

const DAY = 1440;

/** A line read at a minute as the engine reads it: up for an opening, down for a closing. */
function readAt({ at, values }: Lines, side: Side, minute: number): number {
  const k = Math.max(
    0,
    at.findLastIndex((knot) => knot <= minute),
  );
  if (k === at.length - 1) return values[k];
  const rise = ((values[k + 1] - values[k]) * (minute - at[k])) / (at[k + 1] - at[k]);
  return side === 'open' ? Math.ceil(values[k] + rise) : Math.floor(values[k] + rise);
}

/** What breaks the promise of `lagLines`, minute by minute against direct integration. */
function broken(clock: CureClock, horizon: number): string[] {
  const lines = lagLines(clock, horizon);
  const { at, values } = lines;
  const out: string[] = [];
  if (at[0] !== 0 || at[at.length - 1] !== horizon) out.push('does not span 0 to the horizon');
  for (let k = 0; k < at.length; k++) {
    if (!Number.isInteger(at[k]) || !Number.isInteger(values[k])) out.push(`knot ${k} not whole`);
    if (k > 0 && !(at[k] > at[k - 1] && values[k] >= values[k - 1])) out.push(`knot ${k} falls`);
  }
  for (let minute = 0; minute <= horizon; minute++) {
    const direct = Math.min(horizon + 1, reachedAt(clock, minute) ?? Infinity);
    const off = readAt(lines, clock.side, minute) - direct;
    const safe = clock.side === 'open' ? off === 0 || off === 1 : off === 0 || off === -1;
    if (!safe || (direct === horizon + 1 && off !== 0))
      out.push(`minute ${minute}: off by ${off} from ${direct}`);
  }
  return out;
}

/** Days about a mean with a daily swing, on lines ten minutes apart. */
const days = (count: number, mean: number, swing: number): TemperatureSeries => ({
  shape: 'lines',
  start: 0,
  step: 10,
  celsius: Float64Array.from(
    { length: (count * DAY) / 10 + 1 },
    (_, k) => mean + swing * Math.sin((2 * Math.PI * k) / 144),
  ),
});

describe('lag lines', () => {
  it('are one line at one temperature, up to where the horizon cuts it', () => {
    const clock = cureClock(pipeCoating, 'gel', 'open', constantBand(27));
    const lines = lagLines(clock, 55);
    expect([0, 10, 25, 26, 40, 55].map((t) => readAt(lines, 'open', t))).toEqual([
      30, 40, 55, 56, 56, 56,
    ]);
    expect(lines.at.length).toBeLessThanOrEqual(4);
    expect(lagLines(cureClock(pipeCoating, 'gel', 'open', constantBand(0)), 55)).toEqual({
      at: [0, 55],
      values: [56, 56],
    });
    expect(lagLines(clock, 0)).toEqual({ at: [0], values: [1] });
  });

  it('keep to within a minute of direct integration, on the safe side, over a week', () => {
    // 4 degC, below which the chart says no reaction, is passed every night.
    for (const [milestone, side] of [
      ['bond-opens', 'open'],
      ['bond-closes', 'close'],
      ['sandable', 'open'],
      ['cured', 'close'],
    ] as const) {
      const clock = cureClock(pipeCoating, milestone, side, certain(days(7, 9, 8)));
      expect(broken(clock, 7 * DAY)).toEqual([]);
    }
  });

  it('keep to it whatever the history, and never descend', () => {
    const sides = fc.constantFrom<Side>('open', 'close');
    fc.assert(
      fc.property(stalling, sides, histories, (material, side, series) => {
        const clock = cureClock(material, 'bond-opens', side, certain(series));
        expect(broken(clock, 1000)).toEqual([]);
      }),
    );
  });

  it('keep to it over weeks at one temperature, longer than any line is', () => {
    const clock = cureClock(pipeCoating, 'sandable', 'open', constantBand(21));
    expect(broken(clock, 15_000)).toEqual([]);
    expect(lagLines(clock, 15_000).at.length).toBeLessThan(10);
  });

  it('need few knots', () => {
    const clock = cureClock(pipeCoating, 'bond-opens', 'open', certain(days(30, 15, 6)));
    expect(lagLines(clock, 30 * DAY).at.length).toBeLessThan(30 * 16);
  });
});

describe('lag lines of a conversion', () => {
  /*
   * No complete set for a room-temperature resin is published; these energies are those of an
   * epoxy with a polyamidoamine (52.65 and 65.47 kJ/mol, J. South China Normal Univ., abstract,
   * read), the factors invented so that it gels in hours. Two energies: no rate of the
   * temperature alone gives its conversion.
   */
  const law: ConversionLaw = {
    kind: 'conversion',
    k1: { a: 2e6, e: 52_650 },
    k2: { a: 6e9, e: 65_470 },
    m: 1,
    n: 1.15,
    initial: 0,
    reached: 0.6,
  };
  const material = cureMaterialOf({
    milestones: {
      gel: { ...tableLaw([]), ...law },
    },
    limits: limitsOf(8, 40),
  });

  it('keep to within a minute of it too, also where it stalls', () => {
    for (const side of ['open', 'close'] as const) {
      const clock = cureClock(material, 'gel', side, certain(days(3, 14, 8)));
      expect(clock.by.kind).toBe('conversion');
      const there = reachedAt(clock, 0);
      expect(there).toBeGreaterThan(60);
      expect(there).toBeLessThan(DAY);
      expect(broken(clock, 2 * DAY)).toEqual([]);
    }
  });
});
