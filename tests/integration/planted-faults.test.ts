import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compile } from '#planning/compile/compile.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { readYard } from '#planning/yard/read.ts';
import { check } from '#scheduling/checker/check.ts';
import type { ViolationKind } from '#scheduling/checker/violation.ts';
import { validate } from '#scheduling/model/validate.ts';
import { solve } from '#scheduling/solve.ts';
import { mutants, mutations } from '#scheduling/testing/mutations/mutants.ts';
import type { Planted } from '#scheduling/testing/planted.ts';

/** Three plans that the engine makes of a seed's yard, as `npm run plan` compiles it. */
function plansOf(name: string): Planted[] {
  const path = new URL(`../../seeds/${name}.json`, import.meta.url);
  const yard = readYard(JSON.parse(readFileSync(path, 'utf8')), name);
  const { problem } = compile({ yard, workload: makeWorkload(yard) });
  return [1, 2, 3].map((seed) => {
    const { plan } = solve(problem, { seed, iterations: 20 });
    if (plan === null) throw new Error(`no plan of ${name} with seed ${String(seed)}`);
    return { problem, plan };
  });
}

const kinds = Object.keys(mutations) as ViolationKind[];

/** A builder alone in the yard has nobody to learn from, and no plan of hers breaks that rule. */
const impossible: Partial<Record<string, readonly ViolationKind[]>> = { 'yard-of-one': ['senior'] };

// Every other kind can be planted in both yards: what a yard lacks (frozen work, a bare tool), the mutation adds around its plan.
describe.each(['demo-yard', 'yard-of-one'])('plans of %s', { timeout: 120_000 }, (name) => {
  const plans = plansOf(name);

  it('are accepted before anything is planted', () => {
    for (const { problem, plan } of plans) {
      expect(validate(problem)).toEqual([]);
      expect(check(problem, plan)).toEqual([]);
    }
  });

  const possible = kinds.filter((kind) => impossible[name]?.includes(kind) !== true);
  it.each(possible)('100 faults of kind %s are all named', (kind) => {
    const found = mutants(kind, plans, 100);
    expect(found).toHaveLength(100);
    for (const { after } of found) {
      const named = check(after.problem, after.plan).map((violation) => violation.kind);
      expect(named).toContain(kind);
    }
  });
});
