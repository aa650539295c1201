import { z } from 'zod';
import { name } from '#planning/yard/scalars.ts';
import { parseWords, UsageError } from '../words.ts';

const usage =
  'npm run account -- add EMAIL NAME | reset-link EMAIL | close-sessions EMAIL | drop-factor EMAIL';

const commands = ['add', 'reset-link', 'close-sessions', 'drop-factor'] as const;

export interface AccountArguments {
  readonly command: (typeof commands)[number];
  readonly email: string;
  /** Of `add`; empty for the others. */
  readonly name: string;
}

const emailSchema = z.email().max(254);

/** Reads the words after the command. Throws `UsageError`. */
export function readArguments(words: readonly string[]): AccountArguments {
  const { positionals } = parseWords(words, {}, usage);
  const [word, email] = [positionals.at(0), positionals.at(1)];
  const rest = positionals.slice(2);
  const command = commands.find((known) => known === word);
  if (command === undefined) {
    throw wrong(word === undefined ? 'What to do is missing' : `"${word}" is no command`);
  }
  if (email === undefined) throw wrong(`${command}: the e-mail is missing`);
  if (!emailSchema.safeParse(email).success) {
    throw wrong(`${command}: "${email}" is no e-mail address`);
  }
  const called = rest.join(' ').trim();
  if (command !== 'add') {
    if (rest.length > 0) throw wrong(`${command}: "${called}" is too much`);
    return { command, email: email.toLowerCase(), name: '' };
  }
  if (!name.safeParse(called).success) {
    const found = called === '' ? 'the name is missing' : 'the name is longer than 120 characters';
    throw wrong(`add: ${found}`);
  }
  return { command, email: email.toLowerCase(), name: called };
}

const wrong = (what: string): UsageError => new UsageError(`${what}.\nUsage: ${usage}`);
