import { describe, expect, it } from 'vitest';
import { random } from '#kernel/random.ts';
import {
  endOf,
  intersect,
  minuteAt,
  minutesBefore,
  minutesBetween,
  nextInside,
  spanAfter,
  spansOf,
  startEndingFrom,
  subtract,
  workTable,
} from './spans.ts';

const HORIZON = 700;

/** Random spans beside the set of minutes in them. */
function drawn(seed: number): { flat: number[]; inside: boolean[] } {
  const rng = random(seed);
  const flat: number[] = [];
  for (let t = rng.below(40); t < HORIZON;) {
    const end = Math.min(HORIZON, t + 1 + rng.below(90));
    flat.push(t, end);
    t = end + 1 + rng.below(120);
  }
  const inside = Array.from({ length: HORIZON }, (_, t) =>
    flat.some((s, i) => i % 2 === 0 && s <= t && t < flat[i + 1]),
  );
  return { flat, inside };
}

const count = (inside: readonly boolean[], from: number, to: number): number =>
  inside.slice(Math.max(0, from), Math.max(0, to)).filter(Boolean).length;

describe('spans against counting minute by minute', () => {
  for (let seed = 1; seed <= 8; seed += 1)
    it(`agrees for seed ${String(seed)}`, () => {
      const { flat, inside } = drawn(seed);
      const spans = spansOf(flat, HORIZON);
      const minutes = inside.flatMap((is, t) => (is ? [t] : []));
      for (let t = 0; t < HORIZON; t += 7) {
        expect(nextInside(spans, t)).toBe(minutes.find((m) => m >= t) ?? -1);
        expect(minutesBefore(spans, t)).toBe(count(inside, 0, t));
        expect(minutesBetween(spans, t, t + 113)).toBe(count(inside, t, t + 113));
        const i = spanAfter(spans, t);
        expect(i < spans.count ? flat[2 * i + 1] : null).toBe(
          flat.find((end, k) => k % 2 === 1 && end > t) ?? null,
        );
      }
      minutes.forEach((m, k) => {
        expect(minuteAt(spans, k)).toBe(m);
        for (const length of [1, 30, 200]) {
          const last = minutes.at(k + length - 1);
          expect(endOf(spans, m, length)).toBe(last === undefined ? -1 : last + 1);
        }
      });
      for (let finish = 1; finish < HORIZON; finish += 11) {
        const first = minutes.find(
          (_, k) => k + 29 < minutes.length && minutes[k + 29] + 1 >= finish,
        );
        if (first !== undefined) expect(startEndingFrom(spans, finish, 30)).toBe(first);
      }
    });

  it('intersects and subtracts', () => {
    const a = drawn(21);
    const b = drawn(22);
    const both = spansOf(intersect(a.flat, b.flat), HORIZON);
    const less = spansOf(subtract(a.flat, b.flat), HORIZON);
    for (let t = 0; t < HORIZON; t += 1) {
      expect(minutesBetween(both, t, t + 1)).toBe(Number(a.inside[t] && b.inside[t]));
      expect(minutesBetween(less, t, t + 1)).toBe(Number(a.inside[t] && !b.inside[t]));
    }
  });

  it('keeps breaks in shifts and out of working time', () => {
    const calendar = { id: '', shifts: [], breaks: [], overtime: [], source: '' };
    const table = workTable(
      [
        {
          ...calendar,
          id: 'a',
          shifts: [{ start: 10, end: 100 }],
          breaks: [{ start: 40, end: 50 }],
        },
        { ...calendar, id: 'b', shifts: [{ start: 0, end: 60 }] },
      ],
      HORIZON,
    );
    expect([...table.shifts.starts, ...table.shifts.ends]).toEqual([10, 60]);
    expect([...table.work.starts]).toEqual([10, 50]);
    expect([...table.work.ends]).toEqual([40, 60]);
  });
});
