import { parseArgs } from 'node:util';

export interface SolveArguments {
  readonly files: readonly string[];
  readonly limit: Limit;
  readonly threads: number;
  readonly seed: number;
  readonly json: boolean;
}

export type Limit =
  | { readonly kind: 'seconds'; readonly seconds: number }
  | { readonly kind: 'iterations'; readonly iterations: number };

/** A command line that cannot be understood: which argument, and what to write instead. */
export class UsageError extends Error {}

const usage =
  'npm run solve -- FILE... [--seconds N | --iterations N] [--threads K] [--seed K] [--json]';

const DEFAULT_SECONDS = 10;
const MOST_THREADS = 64;

/** Reads the words after the command. Throws `UsageError`. */
export function readArguments(words: readonly string[]): SolveArguments {
  const { values, positionals } = parse(words);
  if (positionals.length === 0)
    throw new UsageError(`FILE is missing: name at least one .sm or .sch file.`);
  for (const file of positionals) {
    if (!/\.(sm|sch)$/i.test(file)) {
      throw new UsageError(
        `FILE "${file}" is neither .sm nor .sch: name benchmark files of one of these kinds.`,
      );
    }
  }
  if (values.seconds !== undefined && values.iterations !== undefined) {
    throw new UsageError('--seconds and --iterations exclude each other: give one of them.');
  }
  return {
    files: positionals,
    limit: limitOf(values.seconds, values.iterations),
    threads: whole('--threads', values.threads ?? '1', 1, MOST_THREADS),
    seed: whole('--seed', values.seed ?? '1', 0, 0xffffffff),
    json: values.json ?? false,
  };
}

function parse(words: readonly string[]) {
  try {
    return parseArgs({
      args: [...words],
      allowPositionals: true,
      options: {
        seconds: { type: 'string' },
        iterations: { type: 'string' },
        threads: { type: 'string' },
        seed: { type: 'string' },
        json: { type: 'boolean' },
      },
    });
  } catch (error) {
    throw new UsageError(
      `${error instanceof Error ? error.message : String(error)}\nUsage: ${usage}`,
    );
  }
}

function limitOf(seconds: string | undefined, iterations: string | undefined): Limit {
  if (iterations !== undefined) {
    return {
      kind: 'iterations',
      iterations: whole('--iterations', iterations, 1, Number.MAX_SAFE_INTEGER),
    };
  }
  if (seconds === undefined) return { kind: 'seconds', seconds: DEFAULT_SECONDS };
  const value = Number(seconds);
  if (seconds.trim() === '' || !Number.isFinite(value) || value <= 0) {
    throw new UsageError(`--seconds "${seconds}" is no time: give a number greater than 0.`);
  }
  return { kind: 'seconds', seconds: value };
}

function whole(option: string, word: string, least: number, most: number): number {
  const value = Number(word);
  if (!/^\d+$/.test(word) || value < least || value > most) {
    throw new UsageError(
      `${option} "${word}" is not possible: give a whole number from ${String(least)} to ${String(most)}.`,
    );
  }
  return value;
}
