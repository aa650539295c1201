import { describe, expect, it } from 'vitest';
import { random, type Random } from '#kernel/random.ts';
import { Distances, essentialArcs, NO_PATH, orderPairs } from './closure.ts';

type Weighted = [from: number, to: number, weight: number];

/** Small weights around zero, so that cycles of length zero are common. */
function drawArcs(rng: Random, nodes: number): Weighted[] {
  return Array.from({ length: nodes + rng.below(2 * nodes) }, (): Weighted => {
    const from = rng.below(nodes);
    return [from, (from + 1 + rng.below(nodes - 1)) % nodes, rng.below(7) - 4];
  });
}

/** Bellman-Ford from every node: another way to the same distances; null with a positive cycle. */
function byRelaxation(nodes: number, arcs: readonly Weighted[]): number[] | null {
  const table: number[] = [];
  for (let source = 0; source < nodes; source++) {
    const at = Array.from({ length: nodes }, (_, i): number => (i === source ? 0 : NO_PATH));
    for (let round = 0; round <= nodes; round++) {
      for (const [from, to, weight] of arcs) {
        if (at[from] === NO_PATH || at[from] + weight <= at[to]) continue;
        if (round === nodes) return null;
        at[to] = at[from] + weight;
      }
    }
    table.push(...at);
  }
  return table;
}

describe('longest paths', () => {
  it('agree with relaxation, and arcs added one by one with all at once', () => {
    let inconsistent = 0;
    for (let seed = 1; seed <= 300; seed++) {
      const rng = random(seed);
      const nodes = 2 + rng.below(6);
      const arcs = drawArcs(rng, nodes);
      const expected = byRelaxation(nodes, arcs);
      const whole = new Distances(nodes, arcs);
      const grown = new Distances(nodes, []);
      const added = arcs.every(([from, to, weight]) => grown.add(from, to, weight));
      expect([whole.consistent, added], `seed ${seed}`).toEqual([
        expected !== null,
        expected !== null,
      ]);
      if (expected === null) {
        inconsistent++;
        continue;
      }
      expect([...whole.table], `seed ${seed}`).toEqual(expected);
      expect([...grown.table], `seed ${seed}`).toEqual(expected);
    }
    expect(inconsistent).toBeGreaterThan(30);
    expect(inconsistent).toBeLessThan(270);
  });

  it('follow from the essential arcs alone, also where cycles have length zero', () => {
    let fewer = 0;
    for (let seed = 1; seed <= 400; seed++) {
      const rng = random(seed);
      const nodes = 3 + rng.below(5);
      const whole = new Distances(nodes, drawArcs(rng, nodes));
      if (!whole.consistent) continue;
      const arcs = essentialArcs(whole);
      expect([...new Distances(nodes, arcs).table], `seed ${seed}`).toEqual([...whole.table]);
      const finite = whole.table.filter((d) => d !== NO_PATH).length - nodes;
      if (arcs.length < finite) fewer++;
    }
    expect(fewer).toBeGreaterThan(50);
  });
});

describe('orders of pairs', () => {
  const duration = Int32Array.of(4, 4, 3);
  const pairs = [
    { first: 0, second: 1 },
    { first: 1, second: 2 },
  ];

  it('an order that the distances exclude leaves the other, and its consequences', () => {
    // 1 starts at most 2 after 0's start, so 0 cannot go first. Then 2 starts no more than 3
    // before 1: just enough to go first. One less, and it must go after.
    const distances = new Distances(3, [
      [1, 0, -2],
      [0, 2, -7],
    ]);
    expect(orderPairs(distances, pairs, duration)).toEqual([{ first: 1, second: 2 }]);
    expect(distances.at(1, 0)).toBe(4);
    const tighter = new Distances(3, [
      [1, 0, -2],
      [0, 2, -6],
    ]);
    expect(orderPairs(tighter, pairs, duration)).toEqual([]);
    expect(tighter.at(1, 2)).toBe(4);
  });

  it('a pair without any order has no plan', () => {
    const distances = new Distances(3, [
      [1, 0, -2],
      [0, 1, -3],
    ]);
    expect(orderPairs(distances, pairs, duration)).toBeNull();
  });
});
