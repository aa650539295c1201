import { limitsOf, parseWords, seedOf, UsageError, wholeOf } from '../words.ts';

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

const usage =
  'npm run solve -- FILE... [--seconds N | --iterations N] [--threads K] [--seed K] [--json]';

const options = {
  seconds: { type: 'string' },
  iterations: { type: 'string' },
  threads: { type: 'string' },
  seed: { type: 'string' },
  json: { type: 'boolean' },
} as const;

const DEFAULT_SECONDS = 10;
const MOST_THREADS = 64;

/** Reads the words after the command. Throws `UsageError`. */
export function readArguments(words: readonly string[]): SolveArguments {
  const { values, positionals } = parseWords(words, options, usage);
  if (positionals.length === 0)
    throw new UsageError(`FILE is missing: name at least one .sm or .sch file.`);
  for (const file of positionals) {
    if (!/\.(sm|sch)$/i.test(file)) {
      throw new UsageError(
        `FILE "${file}" is neither .sm nor .sch: name benchmark files of one of these kinds.`,
      );
    }
  }
  const { seconds, iterations } = limitsOf(values.seconds, values.iterations);
  return {
    files: positionals,
    limit:
      iterations === null
        ? { kind: 'seconds', seconds: seconds ?? DEFAULT_SECONDS }
        : { kind: 'iterations', iterations },
    threads: wholeOf('--threads', values.threads ?? '1', 1, MOST_THREADS),
    seed: seedOf(values.seed),
    json: values.json ?? false,
  };
}
