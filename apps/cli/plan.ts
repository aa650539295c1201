/** `npm run plan`: a yard file in, a plan out; no server, no database. See `plan/arguments.ts` for its words. */
import { accessSync, constants, statSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { DomainError } from '#kernel/error.ts';
import { runSolve, TooLittleMemory, type RunResult } from '#host/run-solve.ts';
import { compile, type Compiled } from '#planning/compile/compile.ts';
import { frameOf } from '#planning/compile/frame/time.ts';
import { observedMaterials } from '#planning/compile/observed/observed.ts';
import { problemHash } from '#planning/compile/trace/hash.ts';
import { whyNot } from '#planning/decode/explain/infeasible.ts';
import { makeSheet } from '#planning/decode/make-sheet.ts';
import { printSheet } from '#planning/decode/print/print.ts';
import { futureFaults } from '#planning/questions/future.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { yardWarnings } from '#planning/yard/check/warnings.ts';
import { readYard } from '#planning/yard/read.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { check } from '#scheduling/checker/check.ts';
import { readArguments, type PlanArguments } from './plan/arguments.ts';
import { readJson } from './plan/read-json.ts';
import {
  findingLines,
  refusal,
  searchLine,
  shorteningLines,
  warningLines,
  type PlanFile,
} from './plan/report.ts';
import { boatsAsked, shorten } from './plan/shorten.ts';
import { pathOf, UsageError } from './words.ts';

/** The documented exit codes. */
const exit = { plan: 0, badInput: 2, infeasible: 3, nothingFound: 4 } as const;

/** Before the search, not after it: a plan that cannot be kept is lost time. */
function expectWritable(out: string): void {
  const path = pathOf(out);
  const existing = statSync(path, { throwIfNoEntry: false });
  try {
    if (existing?.isDirectory() === true) throw new Error('a folder');
    accessSync(existing === undefined ? dirname(path) : path, constants.W_OK);
  } catch {
    throw new UsageError(
      `--out "${out}" cannot be written: name a file in a folder that exists and may be written.`,
    );
  }
}

/** Does something that Ctrl-C cuts short. */
async function interruptible<T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> {
  const stop = new AbortController();
  const onSignal = (): void => {
    stop.abort();
  };
  process.once('SIGINT', onSignal);
  try {
    return await work(stop.signal);
  } finally {
    process.off('SIGINT', onSignal);
  }
}

async function search(
  compiled: Compiled,
  given: PlanArguments,
  signal: AbortSignal,
): Promise<RunResult> {
  try {
    return await runSolve(compiled.problem, {
      seed: given.seed,
      signal,
      ...(given.seconds === null ? {} : { seconds: given.seconds }),
      ...(given.iterations === null ? {} : { iterations: given.iterations }),
      ...(given.threads === null ? {} : { threads: given.threads }),
      ...(given.memoryMB === null ? {} : { memoryMB: given.memoryMB }),
    });
  } catch (error) {
    if (!(error instanceof TooLittleMemory) || given.memoryMB === null) throw error;
    const asked = `--memory "${String(given.memoryMB)}"`;
    throw new UsageError(`${asked} is too little for this yard: give it more megabytes.`);
  }
}

/** A plan that breaks a rule is a fault of this program, and is not shown to anyone who might work to it. */
function expectRight(compiled: Compiled, result: RunResult): void {
  if (result.plan === null) return;
  const wrong = check(compiled.problem, result.plan);
  if (wrong.length === 0) return;
  throw new Error(
    `the checker rejects the plan found: ${wrong
      .slice(0, 5)
      .map(({ message }) => message)
      .join('; ')}`,
  );
}

function withoutPlan(compiled: Compiled, result: RunResult, given: PlanArguments): number {
  const proved = result.status === 'infeasible';
  const why =
    result.infeasibility === null
      ? [
          proved
            ? 'No plan exists: proved, without a shorter explanation.'
            : 'No plan was found in the time; none was ruled out either. Give it longer.',
        ]
      : whyNot(compiled, result.infeasibility);
  if (given.json) process.stdout.write(`${JSON.stringify({ status: result.status, why })}\n`);
  else process.stderr.write(`${given.file}: ${why.join('\n  ')}\n`);
  return proved ? exit.infeasible : exit.nothingFound;
}

/** A file knows no clock: what nobody can have read or found yet is refused here. */
function expectSeen(yard: Yard, clock: Date): void {
  const faults = futureFaults(yard, clock.toISOString());
  if (faults.length > 0)
    throw new DomainError('cure.reading', 'Something is later than now', { faults });
}

/** As the plan reckoned with them. */
const findings = (yard: Yard): string =>
  findingLines(
    yard.materials,
    observedMaterials(yard, frameOf(yard, undefined, undefined)).calibrations,
  );

async function plan(given: PlanArguments): Promise<number> {
  if (given.out !== null) expectWritable(given.out);
  const yard = readYard(readJson(pathOf(given.file), given.file), given.file);
  expectSeen(yard, new Date());
  const workload = makeWorkload(yard);
  const compiled = compile({ yard, workload });
  const begun = performance.now();
  const result = await interruptible((signal) => search(compiled, given, signal));
  const seconds = (performance.now() - begun) / 1000;
  expectRight(compiled, result);
  if (result.plan === null) return withoutPlan(compiled, result, given);

  const sheet = makeSheet({ compiled, result, yard, workload });
  const warnings = yardWarnings(yard);
  const asked = {
    problem: compiled.problem,
    plan: result.plan,
    map: compiled.map,
    seed: given.seed,
  };
  const shortening = given.shorten
    ? await interruptible((signal) => shorten(asked, boatsAsked(sheet.boats), signal))
    : null;
  const file: PlanFile = {
    format: 'curewright-plan',
    version: 1,
    problemHash: problemHash(compiled.problem),
    seed: given.seed,
    iterations: result.iterations,
    warnings,
    sheet,
    map: compiled.map,
    result: { status: result.status, plan: result.plan, bounds: result.bounds },
    ...(shortening === null ? {} : { shortening }),
  };
  if (given.out !== null) writeFileSync(pathOf(given.out), `${JSON.stringify(file, null, 2)}\n`);
  process.stdout.write(
    given.json
      ? `${JSON.stringify(file)}\n`
      : `${printSheet(sheet, { weeks: given.weeks, mixDays: given.mixDays })}${findings(yard)}${shortening === null ? '' : shorteningLines(shortening)}${warningLines(warnings)}${searchLine(result, given.seed, seconds)}`,
  );
  return exit.plan;
}

async function main(words: readonly string[]): Promise<number> {
  let file = '';
  try {
    const given = readArguments(words);
    file = given.file;
    return await plan(given);
  } catch (error) {
    if (error instanceof UsageError) process.stderr.write(`${error.message}\n`);
    else if (error instanceof DomainError) process.stderr.write(refusal(file, error));
    else throw error;
    return exit.badInput;
  }
}

process.exitCode = await main(process.argv.slice(2));
