import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { isProblemFile } from '#scheduling/formats/problem-file.ts';
import {
  limitsOf,
  memoryOf,
  parseWords,
  pathOf,
  seedOf,
  threadsOf,
  UsageError,
  wholeOf,
} from '../words.ts';

export interface SolveArguments {
  readonly files: readonly string[];
  readonly limit: Limit;
  /** In all. */
  readonly threads: number;
  /** Files side by side; the threads are shared out among them. */
  readonly atOnce: number;
  /** Megabytes for all threads together; null: no limit. */
  readonly memoryMB: number | null;
  readonly seed: number;
  readonly json: boolean;
}

export type Limit =
  | { readonly kind: 'seconds'; readonly seconds: number }
  | { readonly kind: 'iterations'; readonly iterations: number };

const usage =
  'npm run solve -- FILE|FOLDER... [--seconds N | --iterations N] [--threads K] [--at-once N] [--memory MB] [--seed K] [--json]';

const options = {
  seconds: { type: 'string' },
  iterations: { type: 'string' },
  threads: { type: 'string' },
  'at-once': { type: 'string' },
  memory: { type: 'string' },
  seed: { type: 'string' },
  json: { type: 'boolean' },
} as const;

const DEFAULT_SECONDS = 10;

const kinds = '.sm, .sch, .dzn or .json';

/** A file as it is, a folder as the files in it that can be read, by name. Throws `UsageError`. */
function filesOf(word: string): string[] {
  if (statSync(pathOf(word), { throwIfNoEntry: false })?.isDirectory() === true) {
    const files = readdirSync(pathOf(word)).filter(isProblemFile).sort();
    if (files.length > 0) return files.map((name) => join(word, name));
    throw new UsageError(`FOLDER "${word}" has no file of a kind that can be read (${kinds}).`);
  }
  if (isProblemFile(word)) return [word];
  throw new UsageError(
    `FILE "${word}" is none of ${kinds}: name benchmark files of one of these kinds.`,
  );
}

/** Reads the words after the command. Throws `UsageError`. */
export function readArguments(words: readonly string[]): SolveArguments {
  const { values, positionals } = parseWords(words, options, usage);
  if (positionals.length === 0)
    throw new UsageError(`FILE is missing: name at least one file (${kinds}) or folder.`);
  const { seconds, iterations } = limitsOf(values.seconds, values.iterations);
  const files = positionals.flatMap(filesOf);
  const threads = threadsOf(values.threads ?? '1');
  const most = Math.min(threads, files.length);
  const memoryMB = values.memory === undefined ? null : memoryOf(values.memory);
  return {
    files,
    limit:
      iterations === null
        ? { kind: 'seconds', seconds: seconds ?? DEFAULT_SECONDS }
        : { kind: 'iterations', iterations },
    threads,
    atOnce: wholeOf('--at-once', values['at-once'] ?? String(most), 1, most),
    memoryMB,
    seed: seedOf(values.seed),
    json: values.json ?? false,
  };
}
