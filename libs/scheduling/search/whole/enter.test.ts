import { describe, expect, it } from 'vitest';
import { random, type Random } from '#kernel/random.ts';
import { check } from '../../checker/check.ts';
import type { Assignment, Placement, Plan } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { smallProblem } from '../../testing/small/small.ts';
import { entered } from './enter.ts';
import { stockOf } from './model/ground.ts';
import { createWhole } from './whole.ts';

/** Another placement of one activity: elsewhere in time, in another mode or by other people. */
function moved(of: Problem, old: Placement, rng: Random): Placement {
  const { modes } = of.activities[old.activity];
  const m = rng.below(3) === 0 ? rng.below(modes.length) : old.mode;
  const mode = modes[m];
  const people = rng.below(3) === 0 || m !== old.mode;
  const crew = people
    ? mode.crew.flatMap(({ count }, demand) =>
        Array.from({ length: count }, (): Assignment => ({
          builder: rng.below(of.builders.length),
          demand,
        })),
      )
    : old.crew;
  const speed = crew.reduce((sum, { builder, demand }) => {
    const { skill } = mode.crew[demand];
    return sum + (of.builders[builder].abilities.find((one) => one.skill === skill)?.speed ?? 0);
  }, 0);
  const minutes =
    mode.crew.length === 0 ? mode.duration : Math.max(mode.floor, Math.ceil(mode.work / speed));
  const start = Math.max(0, old.start + rng.below(13) - 6);
  const finish = start + minutes;
  const segments = minutes === 0 ? [] : [{ start, end: finish }];
  return { ...old, mode: m, crew, start, finish, segments };
}

describe('plans that are entered', () => {
  it('are those that the checker allows', { timeout: 60_000 }, () => {
    let allowed = 0;
    let refused = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const of = smallProblem(seed);
      let { plan } = createWhole(of, 1, null, null).step(3_000);
      if (plan === null || plan.placements.length === 0) continue;
      const rng = random(seed);
      const stock = stockOf(of);
      for (let turn = 0; turn < 34; turn += 1) {
        const at = rng.below(plan.placements.length);
        const placements = plan.placements.map((one, k) => (k === at ? moved(of, one, rng) : one));
        const changed: Plan = { ...plan, placements };
        const found = check(of, changed).filter(({ kind }) => kind !== 'values');
        const own = entered(of, changed, stock);
        const label = `seed ${seed}, turn ${turn}: ${found.at(0)?.message ?? 'allowed'}`;
        if (own === null) expect(found.length, label).toBeGreaterThan(0);
        else {
          // It may pause where this plan says that it does not, but never break a rule.
          expect(check(of, own), label).toEqual([]);
          expect(own.placements.map(({ start }) => start)).toEqual(
            placements.map(({ start }) => start),
          );
          plan = own;
        }
        if (own === null) refused += 1;
        else allowed += 1;
      }
    }
    expect(allowed).toBeGreaterThan(300);
    expect(refused).toBeGreaterThan(300);
  });
});
