/** `npm run solve`: benchmark files in, one line of result each. See `solve/arguments.ts` for its words. */
import { accessSync, constants } from 'node:fs';
import { threadsWithin } from '#host/threads/memory.ts';
import { readArguments, type SolveArguments } from './solve/arguments.ts';
import { Pool } from './solve/pool.ts';
import { jsonLine, readableLine } from './solve/report.ts';
import type { Answer } from './solve/worker.ts';
import { pathOf, UsageError } from './words.ts';

const BAD_INPUT = 2;

async function solve(words: readonly string[]): Promise<number> {
  const given = readArguments(words);
  given.files.forEach(expectReadable);
  const { limit, seed, atOnce, memoryMB } = given;
  const within = memoryMB === null ? null : Math.floor(memoryMB / atOnce);
  const threads = threadsWithin(within, Math.floor(given.threads / atOnce));
  const own = within === null ? null : Math.floor(within / threads);
  const means = { threads, memoryMB: own, allMB: within };
  const pool = new Pool(given.files.map((file) => ({ path: pathOf(file), limit, seed, ...means })));
  stopOn(pool, 'SIGINT', 130);
  stopOn(pool, 'SIGTERM', 143);
  let code = 0;
  const width = Math.max(...given.files.map((file) => file.length));
  await pool.run(atOnce, (answer, k) => {
    if (!print(given, answer, k, width)) code = BAD_INPUT;
  });
  return code;
}

function expectReadable(file: string): void {
  try {
    accessSync(pathOf(file), constants.R_OK);
  } catch {
    throw new UsageError(
      `FILE "${file}" cannot be read: name a file that exists, from the folder you are in.`,
    );
  }
}

function print(given: SolveArguments, answer: Answer, k: number, width: number): boolean {
  const file = given.files[k];
  if ('refusal' in answer) {
    process.stderr.write(`${file}: ${answer.refusal}\n`);
    return false;
  }
  const line = given.json
    ? jsonLine(file, answer.outcome)
    : readableLine(file, width, answer.outcome);
  process.stdout.write(`${line}\n`);
  return true;
}

function stopOn(pool: Pool, signal: 'SIGINT' | 'SIGTERM', code: number): void {
  process.once(signal, () => {
    void pool.stop().then(() => process.exit(code));
  });
}

try {
  process.exitCode = await solve(process.argv.slice(2));
} catch (error) {
  if (!(error instanceof UsageError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = BAD_INPUT;
}
