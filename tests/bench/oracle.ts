import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '#scheduling/model/problem.ts';
import { solve } from '#scheduling/solve.ts';
import { allFeatures, features } from '#scheduling/testing/small/features.ts';
import { smallProblem } from '#scheduling/testing/small/small.ts';
import { disagreements, strict } from '../oracle/compare.ts';
import { criticalPath } from '../oracle/critical-path.ts';
import { waysOf } from '../oracle/ways/ways.ts';
import { atLeast, count, none, quantile, short, type Bench, type Row } from './bench.ts';
import { Answers } from './oracle/answers.ts';

const SEEDS = 500;
const ITERATIONS = 100_000;
const LIMITS = { solver: 'chuffed', seconds: 60, short: true } as const;

const problemOf = (unit: number): Problem => strict(smallProblem(unit));
const kept = new URL('../../.curewright/bench/disagreements/', import.meta.url).pathname;

/** The problem as a regression case: to be put into tests/oracle/regressions once it is understood. */
function keep(seed: number, problem: Problem, wrong: readonly string[]): void {
  mkdirSync(kept, { recursive: true });
  writeFileSync(
    join(kept, `small-${seed}.json`),
    `${JSON.stringify({ about: wrong.join('; '), problem }, null, 1)}\n`,
  );
}

let answers: Answers | null = null;

async function measure(seed: number): Promise<Row> {
  answers ??= new Answers(LIMITS);
  const problem = problemOf(seed);
  const asked = answers.ask(problem);
  // The next one meanwhile: there are two processors.
  if (seed < SEEDS) answers.ask(problemOf(seed + 1)).catch(() => undefined);
  const verdict = await asked;
  const began = performance.now();
  const result = solve(problem, { seed, iterations: ITERATIONS });
  const seconds = (performance.now() - began) / 1000;
  const wrong = disagreements(problem, verdict, result);
  if (wrong.length > 0) keep(seed, problem, wrong);
  const path = criticalPath(problem, waysOf(problem));
  return {
    seed,
    oracle: verdict.kind,
    engine: result.status,
    iterations: result.iterations,
    seconds,
    least: verdict.kind === 'optimal' ? verdict.least.join(' ') : null,
    found: result.plan?.values.slice(0, 2).join(' ') ?? null,
    criticalPath: path?.join(' ') ?? null,
    above: verdict.kind === 'optimal' && path !== null && verdict.least.some((v, r) => v > path[r]),
    wrong: wrong.length > 0 ? wrong.join('; ') : null,
    features: [...features(smallProblem(seed))].join(' '),
  };
}

/** Random small problems, everything on, by the engine and by a general solver. */
export const oracle: Bench = {
  name: 'oracle',
  about: `small problems of seeds 1 to ${SEEDS}, tolerances 0: this engine (${ITERATIONS} iterations) and the oracle (MiniZinc, ${LIMITS.solver}, ${LIMITS.seconds} s a solve)`,
  publicFiles: false,
  longest: 2 * LIMITS.seconds + 60,
  measures: ['tests/oracle/**/*.{ts,mzn}'],
  units: () => Array.from({ length: SEEDS }, (_, k) => String(k + 1)),
  run: (unit) => measure(Number(unit)),
  summarise(rows) {
    const decided = count(rows, (row) => row.oracle !== 'open');
    const wrong = rows.filter((row) => row.wrong !== null);
    for (const { seed, wrong: what } of wrong) console.log(`  seed ${seed}: ${what}`);
    const on = allFeatures.map((name): [string, number] => [
      name,
      count(rows, (row) => String(row.features).split(' ').includes(name)),
    ]);
    const [rarest, times] = on.reduce((a, b) => (b[1] < a[1] ? b : a));
    const seconds = rows.map((row) => Number(row.seconds));
    return [
      { what: 'problems', value: rows.length },
      atLeast(`with the rarest feature (${rarest})`, times, 80),
      atLeast('decided by the oracle', decided, 450),
      atLeast(
        'of these infeasible',
        count(rows, (row) => row.oracle === 'infeasible'),
        80,
      ),
      atLeast(
        'of these above the critical path',
        count(rows, (row) => row.above === true),
        200,
      ),
      none('disagreements', wrong.length),
      {
        what: 'decided by this engine',
        value: count(rows, (row) => row.engine === 'optimal' || row.engine === 'infeasible'),
      },
      { what: 'median seconds of this engine', value: short(quantile(seconds, 0.5)) },
      { what: 'longest seconds of this engine', value: short(quantile(seconds, 1)) },
    ];
  },
};
