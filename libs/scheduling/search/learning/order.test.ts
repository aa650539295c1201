import { describe, expect, it } from 'vitest';
import { random } from '#kernel/random.ts';
import { ActivityHeap } from './activity.ts';
import { luby } from './luby.ts';
import { Splits } from './splits.ts';

describe('restarts', () => {
  it('follow the published sequence', () => {
    expect(Array.from({ length: 15 }, (_, k) => luby(k + 1))).toEqual([
      1, 1, 2, 1, 1, 2, 4, 1, 1, 2, 1, 1, 2, 4, 8,
    ]);
  });
});

describe('activity', () => {
  it('hands out what was bumped in order of decayed bumps, also after putting back', () => {
    const rng = random(3);
    const heap = new ActivityHeap();
    const score = new Map<number, number>();
    let increment = 1;
    for (let conflict = 0; conflict < 400; conflict++) {
      for (let k = 0; k < 5; k++) {
        const item = rng.below(1500);
        heap.bump(item);
        score.set(item, (score.get(item) ?? 0) + increment);
      }
      heap.decay();
      increment /= 0.95;
      if (conflict % 40 !== 39) continue;
      const order: number[] = [];
      for (let item = heap.top(); item >= 0; item = heap.top()) {
        order.push(item);
        heap.pop();
      }
      const scores = order.map((item) => score.get(item) ?? NaN);
      expect(scores).toEqual([...score.values()].sort((a, b) => b - a));
      order.forEach((item) => heap.insert(item));
    }
  });
});

describe('forgetting', () => {
  it('keeps the most active, under new numbers, and what is asked about them', () => {
    const rng = random(11);
    const heap = new ActivityHeap();
    const splits = new Splits();
    const bumps = new Map<string, number>();
    for (let k = 0; k < 6000; k++) {
      const x = rng.below(30);
      const at = rng.below(1 + rng.below(60));
      heap.bump(splits.find(x, at));
      bumps.set(`${x} ${at}`, (bumps.get(`${x} ${at}`) ?? 0) + 1);
    }
    const counts = [...bumps.values()].sort((a, b) => b - a);
    const kept = 200;
    splits.keep(heap.keep(kept));
    expect(splits.count).toBe(kept);
    for (let id = 0; id < kept; id++) {
      const [x, at] = [splits.variable[id], splits.at[id]];
      expect(splits.find(x, at)).toBe(id);
      expect(bumps.get(`${x} ${at}`)).toBe(counts[id]);
    }
    expect(splits.find(31, 0)).toBe(kept);
    // The last ones are bumped above all others, and come out first.
    for (let k = 0; k < 5000; k++) heap.bump(kept - 1);
    heap.bump(kept);
    const order: number[] = [];
    for (let item = heap.top(); item >= 0; item = heap.top()) {
      order.push(item);
      heap.pop();
    }
    expect(order.length).toBe(kept + 1);
    expect(order[0]).toBe(kept - 1);
    expect(new Set(order).size).toBe(kept + 1);
  });
});

describe('questions', () => {
  it('keep their number however many there are', () => {
    const rng = random(5);
    const splits = new Splits();
    const numbers = new Map<string, number>();
    for (let k = 0; k < 5000; k++) {
      const x = rng.below(40);
      const at = rng.below(300) - 50;
      const id = splits.find(x, at);
      const known = numbers.get(`${x} ${at}`) ?? numbers.size;
      numbers.set(`${x} ${at}`, id);
      if (id !== known || splits.variable[id] !== x || splits.at[id] !== at) {
        expect.fail(`question ${x} >= ${at} has number ${id} instead of ${known}`);
      }
    }
    expect(numbers.size).toBeGreaterThan(3000);
  });
});
