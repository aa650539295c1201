import { globSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Problem } from '#scheduling/model/problem.ts';
import { solve } from '#scheduling/solve.ts';
import { bruteForce } from '#scheduling/testing/brute.ts';
import { tinyProblem } from '#scheduling/testing/planted.ts';
import { smallProblem } from '#scheduling/testing/small/small.ts';
import { disagreements, strict } from './compare.ts';
import { oracle } from './oracle.ts';

const limits = { solver: 'chuffed', seconds: 60, short: true } as const;
const PATIENCE_MS = 900_000;

interface Case {
  readonly name: string;
  readonly problem: Problem;
}

/** Runs all cases, two at a time: there are two processors. What is wrong, with the case's name. */
async function failures(
  cases: readonly Case[],
  test: (problem: Problem) => Promise<readonly string[]>,
): Promise<string[]> {
  const left = [...cases];
  const found: string[] = [];
  const work = async (): Promise<void> => {
    for (let one = left.shift(); one !== undefined; one = left.shift()) {
      const { name, problem } = one;
      for (const what of await test(problem)) found.push(`${name}: ${what}`);
    }
  };
  await Promise.all([work(), work()]);
  return found;
}

/** The engine against the oracle, which has to decide. */
async function compared(problem: Problem): Promise<readonly string[]> {
  const verdict = await oracle(problem, limits);
  if (verdict.kind === 'open') return ['not decided by the oracle'];
  return disagreements(problem, verdict, solve(problem, { seed: 1, iterations: 100_000 }));
}

const small = (seed: number, change: (problem: Problem) => Problem): Case => ({
  name: `smallProblem(${seed})`,
  problem: change(smallProblem(seed)),
});

const some = process.env['LONG_TESTS'] === '1' ? 40 : 16;
/** So many of the 500 that `npm run bench -- --only oracle` compares, evenly. */
const seeds = Array.from({ length: some }, (_, k) => 1 + Math.floor(480 / some) * k);

describe('the engine and the oracle', () => {
  it(`agree on ${some} small problems`, { timeout: PATIENCE_MS }, async () => {
    expect(
      await failures(
        seeds.map((seed) => small(seed, strict)),
        compared,
      ),
    ).toEqual([]);
  });

  it('agree on what they once disagreed about', { timeout: PATIENCE_MS }, async () => {
    const folder = new URL('./regressions/', import.meta.url);
    const cases = globSync('*.json', { cwd: folder }).map((name) => {
      const { problem } = JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as Case;
      return { name, problem };
    });
    expect(await failures(cases, compared)).toEqual([]);
  });

  it('agree where the first rank may be worse', { timeout: PATIENCE_MS }, async () => {
    const given = [3, 6].map((seed) =>
      small(seed, (problem) => ({ ...problem, tolerances: [5, 0, 0] })),
    );
    expect(await failures(given, compared)).toEqual([]);
  });
});

it('the oracle finds what enumeration finds', { timeout: PATIENCE_MS }, async () => {
  const cases = [1, 2, 3, 4].map((seed) => ({
    name: `tinyProblem(${seed}, 4)`,
    problem: strict(tinyProblem(seed, 4).problem),
  }));
  const enumerated = async (problem: Problem): Promise<readonly string[]> => {
    const verdict = await oracle(problem, limits);
    const best = bruteForce(problem);
    const told = verdict.kind === 'optimal' ? verdict.least.join(' ') : verdict.kind;
    const known = best?.least.slice(0, 2).join(' ') ?? 'infeasible';
    return told === known ? [] : [`${told}, not ${known}`];
  };
  expect(await failures(cases, enumerated)).toEqual([]);
});
