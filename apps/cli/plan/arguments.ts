import { limitsOf, memoryOf, parseWords, seedOf, threadsOf, UsageError } from '../words.ts';

export interface PlanArguments {
  readonly file: string;
  readonly seconds: number | null;
  readonly iterations: number | null;
  readonly seed: number;
  /** Null: as many threads as there are cores; as much memory as there is. */
  readonly threads: number | null;
  readonly memoryMB: number | null;
  /** Whether to ask what would shorten the plan. */
  readonly shorten: boolean;
  readonly json: boolean;
  readonly out: string | null;
  /** How many weeks are printed, and on how many days with wet work of them the mix sheets. */
  readonly weeks: number;
  readonly mixDays: number;
}

const usage =
  'npm run plan -- FILE.json [--seconds N | --iterations N] [--seed K] [--threads K] [--memory MB] [--weeks N] [--mix-days N] [--shorten] [--json] [--out PLAN.json]';

const options = {
  seconds: { type: 'string' },
  iterations: { type: 'string' },
  seed: { type: 'string' },
  threads: { type: 'string' },
  memory: { type: 'string' },
  shorten: { type: 'boolean' },
  json: { type: 'boolean' },
  out: { type: 'string' },
  weeks: { type: 'string' },
  'mix-days': { type: 'string' },
} as const;

/** More weeks than any horizon has, and more days. */
const MOST = 400;

function countOf(word: string, text: string | undefined, usual: number): number {
  if (text === undefined) return usual;
  const count = Number(text);
  if (/^\d+$/.test(text) && count >= 1 && count <= MOST) return count;
  throw new UsageError(
    `--${word} "${text}" is no number of them: give a whole number from 1 to ${String(MOST)}.`,
  );
}

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
    threads: values.threads === undefined ? null : threadsOf(values.threads),
    memoryMB: values.memory === undefined ? null : memoryOf(values.memory),
    shorten: values.shorten ?? false,
    json: values.json ?? false,
    out: values.out ?? null,
    weeks: countOf('weeks', values.weeks, 1),
    mixDays: countOf('mix-days', values['mix-days'], 2),
  };
}
