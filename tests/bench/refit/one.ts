/**
 * One made-up yard planned for so many seconds, in a process of its own so that its memory can be
 * told. Words: SETTINGS (JSON) SECONDS THREADS. Prints one JSON line.
 */
import { runSolve } from '#host/run-solve.ts';
import { compile } from '#planning/compile/compile.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { check } from '#scheduling/checker/check.ts';
import { generateYard, type YardSettings } from '#seeds/generate/yard.ts';
import type { Row } from '../bench.ts';

/** Seconds after which the best plan is noted, the limit last. */
const MARKS = [1, 10];

const [settings, limit, threads] = process.argv.slice(2);
const yard = generateYard(JSON.parse(settings) as YardSettings);
const { problem } = compile({ yard, workload: makeWorkload(yard) });
const seconds = Number(limit);
const began = Date.now();
const noted: Record<string, number | null> = {};
let finishes: number | null = null;
let peak = 0;

/** What had been found by each mark that has just passed. */
const note = (now: number): void => {
  for (const mark of MARKS)
    if (now - began >= mark * 1000 && !(`after${mark}s` in noted))
      noted[`after${mark}s`] = finishes;
};

const result = await runSolve(problem, {
  seed: 1,
  seconds,
  threads: Number(threads),
  onProgress: ({ plan }) => {
    note(Date.now());
    finishes = plan?.values[1] ?? null;
    peak = Math.max(peak, process.memoryUsage.rss());
  },
});
note(Infinity);
const wrong = result.plan === null ? [] : check(problem, result.plan);
const row: Row = {
  tasks: problem.activities.length,
  boats: problem.refits.length,
  lags: problem.lags.length,
  status: result.status,
  wrong: wrong.length,
  firstPlanMs: result.firstPlanMs,
  ...noted,
  atEnd: result.plan?.values[1] ?? null,
  ...Object.fromEntries(
    result.bounds.flatMap((bound, r) => [
      [`value${r + 1}`, result.plan?.values[r] ?? null],
      [`bound${r + 1}`, bound.bound],
      [`gap${r + 1}`, Number(bound.gap.toFixed(4))],
    ]),
  ),
  iterations: result.iterations,
  megabytes: Math.round(Math.max(peak, process.memoryUsage.rss()) / 2 ** 20),
};
process.stdout.write(`${JSON.stringify(row)}\n`);
