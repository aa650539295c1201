/**
 * One solve by this engine on one thread in a process of its own. Words: FILE SECONDS; the file is a
 * benchmark's, or ends in `.problem` and holds a problem of the engine as it is. Prints one JSON line
 * (`Course` and what the checker says); reading counts as start-up.
 */
import { readFileSync } from 'node:fs';
import { check } from '#scheduling/checker/check.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { readBenchmark } from '../../../apps/cli/solve/solveFile.ts';
import { drive } from '../drive.ts';
import { courseOf } from './course.ts';
import { valueOf } from './worth.ts';

const [file, limit] = process.argv.slice(2);
const problem = file.endsWith('.problem')
  ? (JSON.parse(readFileSync(file, 'utf8')) as Problem)
  : readBenchmark(file);
// Counted from the start of the process, as `performance.now()` is.
const began = performance.now();
const found: { at: number; value: number }[] = [];
const { status, plan, seconds } = drive(problem, Number(limit), began, (better, after) => {
  found.push({ at: began / 1000 + after, value: valueOf(problem, better) });
});
const course = courseOf({
  startSeconds: began / 1000,
  flatSeconds: 0,
  found,
  proved: status === 'optimal' || status === 'infeasible' ? status : null,
  provedAt: began / 1000 + seconds,
});
const wrong = plan === null ? 0 : check(problem, plan).length;
process.stdout.write(`${JSON.stringify({ ...course, seconds, wrong })}\n`);
