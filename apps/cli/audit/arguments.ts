import { parseWords, UsageError } from '../words.ts';

export interface AuditArguments {
  readonly command: 'verify' | 'head';
  /** A yard's id, or empty for the accounts; null: all there are. */
  readonly chain: string | null;
  /** A hash noted before, hex in lower case; null: none. */
  readonly head: string | null;
}

const usage =
  'npm run audit -- verify [--yard ID | --accounts] [--head HEX] | head [--yard ID | --accounts]';

const options = {
  yard: { type: 'string' },
  accounts: { type: 'boolean' },
  head: { type: 'string' },
} as const;

/** Reads the words after the command. Throws `UsageError`. */
export function readArguments(words: readonly string[]): AuditArguments {
  const { values, positionals } = parseWords(words, options, usage);
  const [command, ...rest] = positionals;
  if (command !== 'verify' && command !== 'head') {
    throw wrong(positionals.length === 0 ? 'What to do is missing' : `"${command}" is no command`);
  }
  if (rest.length > 0) throw wrong(`${command}: "${rest.join(' ')}" is too much`);
  if (values.yard === '') throw wrong('--yard "" is no yard: give its id');
  if (values.yard !== undefined && values.accounts === true) {
    throw wrong('--yard and --accounts exclude each other: give one of them');
  }
  const chain = values.accounts === true ? '' : (values.yard ?? null);
  if (values.head === undefined) return { command, chain, head: null };
  if (command === 'head') throw wrong('head prints what verify takes as --head: leave --head out');
  if (chain === null) throw wrong('--head is of one chain: say whose, with --yard or --accounts');
  if (!/^[0-9a-f]{64}$/i.test(values.head)) {
    throw wrong(`--head "${values.head}" is no hash: give the 64 digits that head printed`);
  }
  return { command, chain, head: values.head.toLowerCase() };
}

const wrong = (what: string): UsageError => new UsageError(`${what}.\nUsage: ${usage}`);
