/** What the commands' arguments have in common. */
import { resolve } from 'node:path';
import { parseArgs, type ParseArgsConfig } from 'node:util';
import { LEAST_MB } from '#host/threads/memory.ts';

/** A command line that cannot be understood: which argument, and what to write instead. */
export class UsageError extends Error {}

/** npm runs a script in the package's folder; paths are meant from where it was called. */
export const pathOf = (file: string): string =>
  resolve(process.env.INIT_CWD ?? process.cwd(), file);

/** Options and files of a command line. Throws `UsageError`, with `usage` as its last line. */
export function parseWords<T extends NonNullable<ParseArgsConfig['options']>>(
  words: readonly string[],
  options: T,
  usage: string,
) {
  try {
    return parseArgs({ args: [...words], allowPositionals: true, options });
  } catch (error) {
    const what = error instanceof Error ? error.message : String(error);
    throw new UsageError(`${what}\nUsage: ${usage}`);
  }
}

/** A number of seconds greater than 0. Throws `UsageError`. */
function secondsOf(word: string): number {
  const value = Number(word);
  if (word.trim() !== '' && Number.isFinite(value) && value > 0) return value;
  throw new UsageError(`--seconds "${word}" is no time: give a number greater than 0.`);
}

/** A whole number within limits. Throws `UsageError`. */
export function wholeOf(option: string, word: string, least: number, most: number): number {
  const value = Number(word);
  if (/^\d+$/.test(word) && value >= least && value <= most) return value;
  throw new UsageError(
    `${option} "${word}" is not possible: give a whole number from ${String(least)} to ${String(most)}.`,
  );
}

/** What may be asked of a search: a time, or a number of iterations, or neither (null). Throws `UsageError`. */
export function limitsOf(
  seconds: string | undefined,
  iterations: string | undefined,
): { seconds: number | null; iterations: number | null } {
  if (seconds !== undefined && iterations !== undefined) {
    throw new UsageError('--seconds and --iterations exclude each other: give one of them.');
  }
  return {
    seconds: seconds === undefined ? null : secondsOf(seconds),
    iterations:
      iterations === undefined
        ? null
        : wholeOf('--iterations', iterations, 1, Number.MAX_SAFE_INTEGER),
  };
}

export const seedOf = (word: string | undefined): number =>
  wholeOf('--seed', word ?? '1', 0, 0xffffffff);

/** More threads than any machine at hand has cores. */
const MOST_THREADS = 64;
const MOST_MEMORY = 1_048_576;

export const threadsOf = (word: string): number => wholeOf('--threads', word, 1, MOST_THREADS);

/** Megabytes. */
export const memoryOf = (word: string): number => wholeOf('--memory', word, LEAST_MB, MOST_MEMORY);
