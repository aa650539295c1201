import { parseArgs } from 'node:util';

export interface PlanArguments {
  readonly file: string;
  readonly seconds: number | null;
  readonly iterations: number | null;
  readonly seed: number;
  readonly json: boolean;
  readonly out: string | null;
}

/** A command line that cannot be understood: which argument, and what to write instead. */
export class UsageError extends Error {}

const usage =
  'npm run plan -- FILE.json [--seconds N | --iterations N] [--seed K] [--json] [--out PLAN.json]';

/** Reads the words after the command. Throws `UsageError`. */
export function readArguments(words: readonly string[]): PlanArguments {
  const { values, positionals } = parse(words);
  if (positionals.length !== 1) {
    const found =
      positionals.length === 0
        ? 'FILE.json is missing'
        : `${String(positionals.length)} files are named`;
    throw new UsageError(`${found}: name one yard file.\nUsage: ${usage}`);
  }
  const { seconds, iterations } = values;
  if (seconds !== undefined && iterations !== undefined) {
    throw new UsageError('--seconds and --iterations exclude each other: give one of them.');
  }
  return {
    file: positionals[0],
    seconds: seconds === undefined ? null : time(seconds),
    iterations:
      iterations === undefined
        ? null
        : whole('--iterations', iterations, 1, Number.MAX_SAFE_INTEGER),
    seed: whole('--seed', values.seed ?? '1', 0, 0xffffffff),
    json: values.json ?? false,
    out: values.out ?? null,
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
        seed: { type: 'string' },
        json: { type: 'boolean' },
        out: { type: 'string' },
      },
    });
  } catch (error) {
    throw new UsageError(
      `${error instanceof Error ? error.message : String(error)}\nUsage: ${usage}`,
    );
  }
}

function time(word: string): number {
  const value = Number(word);
  if (word.trim() !== '' && Number.isFinite(value) && value > 0) return value;
  throw new UsageError(`--seconds "${word}" is no time: give a number greater than 0.`);
}

function whole(option: string, word: string, least: number, most: number): number {
  const value = Number(word);
  if (/^\d+$/.test(word) && value >= least && value <= most) return value;
  throw new UsageError(
    `${option} "${word}" is not possible: give a whole number from ${String(least)} to ${String(most)}.`,
  );
}
