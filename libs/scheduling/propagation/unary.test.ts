import { describe, expect, it } from 'vitest';
import { random, type Random } from '#kernel/random.ts';
import type { Arc } from './arcs.ts';
import type { Clock } from './clock.ts';
import { lowerOf, upperOf } from './literal.ts';
import { Network } from './network.ts';
import { assignments, examine, noTally, rootOf, type Small } from './testing/meaning.ts';
import { unary, type UnaryUse } from './unary.ts';

const LATEST = 4;
/** A task may take so much longer than at least. */
const MORE = 3;

/** Minutes 0, 1, ... of which `works` says which count. */
function clockOf(works: readonly boolean[]): Clock {
  const shown = [0];
  for (const work of works) shown.push(shown[shown.length - 1] + (work ? 1 : 0));
  const at = (t: number): number =>
    t < 0 ? t : t < shown.length ? shown[t] : shown[shown.length - 1] + t - shown.length + 1;
  return {
    at,
    back(v) {
      let t = -20;
      while (at(t + 1) <= v) t++;
      return t;
    },
  };
}

/** Starts 0 .. n-1, finishes n .. 2n-1, then a Boolean for each task that may be absent. */
function draw(rng: Random): Small {
  const tasks = 3;
  const clock = clockOf(Array.from({ length: 16 }, () => rng.below(3) > 0));
  const domains: [number, number][] = [];
  for (let i = 0; i < tasks; i++) domains.push([rng.below(2), LATEST - rng.below(3)]);
  for (let i = 0; i < tasks; i++) domains.push([0, LATEST + 6]);
  const arcs: Arc[] = [];
  const uses: UnaryUse[] = [];
  for (let i = 0; i < tasks; i++) {
    const least = 1 + rng.below(2);
    arcs.push({ from: i, to: tasks + i, weight: least, when: -1 });
    arcs.push({ from: tasks + i, to: i, weight: -least - MORE, when: -1 });
    const flag = rng.below(2) === 0 ? domains.push([0, 1]) - 1 : -1;
    const when = flag < 0 ? null : { b: lowerOf(flag), v: 1 };
    uses.push({ start: i, finish: tasks + i, after: rng.below(2), work: 1 + rng.below(2), when });
  }
  const solutions = withFinishes(domains, arcs, tasks).filter((values) =>
    fits(clock, uses, values),
  );
  return {
    input: { root: rootOf(domains), arcs, propagators: [unary({ uses, clock })] },
    solutions,
    complete: true,
  };
}

/** Assignments that keep the arcs, without listing those that do not. */
function withFinishes(
  domains: readonly (readonly [number, number])[],
  arcs: readonly Arc[],
  tasks: number,
): number[][] {
  const others = domains.filter((_, x) => x < tasks || x >= 2 * tasks);
  const lengths = Array.from({ length: tasks }, (_, i) => arcs[2 * i].weight);
  return assignments(others).flatMap((values) =>
    assignments(lengths.map((least) => [least, least + MORE] as const))
      .map((length) => [
        ...values.slice(0, tasks),
        ...length.map((l, i) => values[i] + l),
        ...values.slice(tasks),
      ])
      .filter((all) => all.every((value, x) => value <= domains[x][1])),
  );
}

function fits(clock: Clock, uses: readonly UnaryUse[], values: readonly number[]): boolean {
  const present = uses.filter(({ when }) => when === null || values[when.b >> 1] === 1);
  const from = (u: UnaryUse): number => values[u.start];
  const to = (u: UnaryUse): number => values[u.finish] + u.after;
  return present.every(
    (u, k) =>
      clock.at(to(u)) - clock.at(from(u)) >= u.work &&
      present.slice(k + 1).every((o) => to(u) <= from(o) || to(o) <= from(u)),
  );
}

describe('one thing at a time', () => {
  it('removes nothing that has a solution, and says truly why', () => {
    const tally = noTally();
    for (let seed = 1; seed <= 40; seed++) {
      const rng = random(seed);
      examine(draw(rng), rng, `seed ${seed}`, tally);
    }
    expect(tally.conflicts).toBeGreaterThan(50);
    expect(tally.fixed).toBeGreaterThan(50);
    expect(tally.propagators).toBeGreaterThan(200);
  });

  it('sees that two tasks come before a third, and that a fourth does not fit beside them', () => {
    // Two tasks of 2 hours each within 0..5, a third of 2 hours until 12, a fourth of 2 until 5.
    const uses = [0, 1, 2, 3].map((i) => ({
      start: i,
      finish: i,
      after: 2,
      work: 2,
      when: i === 3 ? { b: lowerOf(4), v: 1 } : null,
    }));
    const domains = [[0, 3] as const, [0, 3] as const, [0, 10] as const, [0, 3] as const];
    const network = new Network({
      root: rootOf([...domains, [0, 1]]),
      arcs: [],
      propagators: [unary({ uses, clock: { at: (t) => t, back: (v) => v } })],
    });
    expect(network.propagate()).toBe(true);
    expect(network.trail.bound[lowerOf(2)]).toBe(4);
    expect(network.trail.bound[upperOf(4)]).toBe(0);
    // Where 3..6 is night, the first two do not fit before 5 any more.
    const night = {
      at: (t: number): number => t - Math.min(3, Math.max(0, t - 3)),
      back: (v: number): number => (v < 3 ? v : v + 3),
    };
    const over = new Network({
      root: rootOf(domains),
      arcs: [],
      propagators: [unary({ uses: uses.slice(0, 3), clock: night })],
    });
    expect(over.propagate()).toBe(false);
  });
});
