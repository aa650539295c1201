import { describe, expect, it } from 'vitest';
import { editsOfChange } from '#live/change/change-edits.ts';
import type { ChangeInput } from '#live/change/change-input.ts';
import { applyEdits } from '#live/edits/apply.ts';
import { compile } from '#planning/compile/compile.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { readYard } from '#planning/yard/read.ts';
import { yardOfOne } from '#seeds/yard-of-one.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import { solve } from '#scheduling/solve.ts';
import { carried } from './carry.ts';

const yard = readYard(yardOfOne, 'yard of one');
const workload = makeWorkload(yard);
const compiled = compile({ yard, workload });
const { plan } = solve(compiled.problem, { seed: 1, iterations: 64 });
if (plan === null) throw new Error('the yard of one can be planned');
const parts = yard.boats.flatMap(({ refits }) => refits.flatMap((refit) => refit.parts));
const [first] = parts;

const changedBy = (input: ChangeInput) => {
  const changed = applyEdits(yard, workload, editsOfChange(yard, input));
  return compile(changed);
};

/** By task and person, as ids: what is done when and by whom. */
const told = ({ placements }: Plan, { map }: typeof compiled) =>
  new Map(
    placements.map(({ activity, start, finish, crew }) => [
      map.tasks[activity],
      { start, finish, people: crew.map(({ builder }) => map.people[builder]) },
    ]),
  );

describe('a plan carried over', () => {
  it('is the plan that it was, where the work is the same', () => {
    expect(carried(plan, compiled, compiled)).toEqual(plan);
  });

  it('has everybody at the same work at the same time, though some of it is more there', () => {
    const larger = changedBy({ kind: 'size', partId: first.id, areaM2: first.areaM2 * 2 });
    expect(told(carried(plan, compiled, larger), larger)).toEqual(told(plan, compiled));
  });

  it('finds work by its id where other work is gone', () => {
    const without = changedBy({ kind: 'drop-part', partId: first.id });
    const before = told(plan, compiled);
    const after = told(carried(plan, compiled, without), without);
    const left = new Set(without.map.tasks);
    expect(left.size).toBeLessThan(compiled.map.tasks.length);
    expect([...after.keys()]).toEqual([...before.keys()].filter((id) => left.has(id)));
    for (const [id, one] of after) expect(one).toEqual(before.get(id));
  });
});
