import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { cureClock, reachedAt } from '../clock/cure-clock.ts';
import { celsiusAt, constantSeries, type TemperatureSeries } from '../clock/series.ts';
import type { CureMaterial } from '../material/material.ts';
import { histories, stalling } from '../testing/arbitraries.ts';
import { pipeCoating } from '../testing/published.ts';
import { bondAt } from './bond.ts';
import { forbiddenStarts } from './forbidden.ts';
import { windowFor } from './window.ts';

describe('window', () => {
  it('is the published recoat window at a published temperature', () => {
    // Chart row: 27 degC, recoat 25-75 min.
    const window = windowFor(pipeCoating, 'bond-opens', 'bond-closes', constantSeries(27), 100);
    expect(window).toEqual({ opens: 125, closes: 175 });
  });

  it('opens for the last of a film and closes for the first', () => {
    const window = windowFor(
      pipeCoating,
      'bond-opens',
      'bond-closes',
      constantSeries(27),
      100,
      140,
    );
    expect(window).toEqual({ opens: 165, closes: 175 });
  });

  it('is wider in the cold and never opens in the frost', () => {
    expect(windowFor(pipeCoating, 'bond-opens', 'bond-closes', constantSeries(10), 0)).toEqual({
      opens: 100,
      closes: 235,
    });
    expect(windowFor(pipeCoating, 'bond-opens', 'bond-closes', constantSeries(3), 0)).toEqual({
      opens: null,
      closes: null,
    });
  });
});

describe('bond', () => {
  const at = (minute: number): string => bondAt(pipeCoating, constantSeries(27), 0, 10, minute);

  it('is chemical in the window, mechanical once hard, and neither before or between', () => {
    // 27 degC: opens 25 after the last of the film, closes 75 after the first, D65 after 285.
    expect([34, 35, 75, 76, 294, 295].map(at)).toEqual([
      'too-early',
      'chemical',
      'chemical',
      'too-early',
      'too-early',
      'mechanical',
    ]);
  });

  it('stays chemical after sanding becomes possible, as in unwaxed polyester', () => {
    // To 5 days by the Iranian Classification Society's FRP rules (2014), ch. 3, 602.2; the rest invented.
    const flat = (
      minutes: number,
    ): { rows: { celsius: number; minutes: number }[]; source: string } => ({
      rows: [10, 30].map((celsius) => ({ celsius, minutes })),
      source: 'test',
    });
    const polyester: CureMaterial = {
      ...pipeCoating,
      milestones: { 'bond-opens': flat(45), 'bond-closes': flat(7200), sandable: flat(1440) },
    };
    const bonds = [44, 45, 1440, 7200, 7201].map((t) =>
      bondAt(polyester, constantSeries(20), 0, 0, t),
    );
    expect(bonds).toEqual(['too-early', 'chemical', 'chemical', 'chemical', 'mechanical']);
  });
});

describe('forbidden starts', () => {
  const night: TemperatureSeries = { start: 0, step: 600, celsius: [27, 2, 27, 50, 27] };

  it('keeps a spoiling film out of the cold from its start until it is safe', () => {
    const material: CureMaterial = { ...pipeCoating, belowMinimum: 'spoils' };
    // Gel in 30 min at 27 degC: 20 min of work must start by 550. Above 43 degC nothing starts.
    expect(forbiddenStarts(material, night, 'gel', 20, 3000)).toEqual([
      { start: 551, end: 1200 },
      { start: 1781, end: 2400 },
    ]);
    expect(forbiddenStarts(pipeCoating, night, 'gel', 20, 3000)).toEqual([
      { start: 1781, end: 2400 },
    ]);
  });

  it('forbids exactly the starts that a walk through the minutes forbids', () => {
    const work = fc.integer({ min: 0, max: 90 });
    fc.assert(
      fc.property(
        stalling,
        histories,
        work,
        fc.integer({ min: 20, max: 60 }),
        (base, series, minutes, maximumC) => {
          const material: CureMaterial = { ...base, belowMinimum: 'spoils', maximumC };
          const horizon = 300;
          const spans = forbiddenStarts(material, series, 'bond-opens', minutes, horizon);
          const clock = cureClock(material, 'bond-opens', 'open', series);
          // Beyond its end a history holds its last value, so there is nothing more to see there.
          const end = series.start + series.step * series.celsius.length;
          const differs: number[] = [];
          for (let start = 0; start <= horizon; start++) {
            const safe = Math.min(
              reachedAt(clock, start + minutes) ?? Infinity,
              Math.max(end, start) + minutes + 1,
            );
            let bad = false;
            for (
              let minute = start;
              minute < Math.max(safe, start + Math.max(1, minutes)) && !bad;
              minute++
            ) {
              const celsius = celsiusAt(series, minute);
              bad =
                celsius < material.minimumC ||
                (celsius > maximumC && minute < start + Math.max(1, minutes));
            }
            if (spans.some((s) => s.start <= start && start < s.end) !== bad) differs.push(start);
          }
          expect(differs).toEqual([]);
          spans.forEach((s, k) => {
            expect(s.start < s.end && (k === 0 || spans[k - 1].end < s.start)).toBe(true);
          });
        },
      ),
      { numRuns: 60 },
    );
  });
});
