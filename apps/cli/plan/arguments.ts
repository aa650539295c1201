import { limitsOf, parseWords, seedOf, UsageError } from '../words.ts';

export interface PlanArguments {
  readonly file: string;
  readonly seconds: number | null;
  readonly iterations: number | null;
  readonly seed: number;
  readonly json: boolean;
  readonly out: string | null;
}

const usage =
  'npm run plan -- FILE.json [--seconds N | --iterations N] [--seed K] [--json] [--out PLAN.json]';

const options = {
  seconds: { type: 'string' },
  iterations: { type: 'string' },
  seed: { type: 'string' },
  json: { type: 'boolean' },
  out: { type: 'string' },
} as const;

/** Reads the words after the command. Throws `UsageError`. */
export function readArguments(words: readonly string[]): PlanArguments {
  const { values, positionals } = parseWords(words, options, usage);
  if (positionals.length !== 1) {
    const found =
      positionals.length === 0
        ? 'FILE.json is missing'
        : `${String(positionals.length)} files are named`;
    throw new UsageError(`${found}: name one yard file.\nUsage: ${usage}`);
  }
  return {
    file: positionals[0],
    ...limitsOf(values.seconds, values.iterations),
    seed: seedOf(values.seed),
    json: values.json ?? false,
    out: values.out ?? null,
  };
}
