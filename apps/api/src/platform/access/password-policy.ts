import { type MatchExtended, ZxcvbnFactory } from '@zxcvbn-ts/core';
import { adjacencyGraphs, dictionary } from '@zxcvbn-ts/language-common';
import { DomainError, type Fault, fault } from '#kernel/error.ts';

/**
 * NIST SP 800-63B-4, 3.1.1.2, and OWASP's Authentication Cheat Sheet: 15 code points where the
 * password may be the only factor. Beside a second factor 8 would do, but that can be taken off
 * later, and a hash does not tell how long its password was: so it is 15 for everyone. 64 is the
 * least that has to be possible at the top. No rule says which characters.
 */
const shortest = 15;
const longest = 128;

/** Of guesses: what the estimator's authors call safe where a slow hash was stolen (their score 4). */
const leastGuesses = 1e10;

/**
 * Ways to read digits and signs as letters that are tried. Of the hundred that the library tries
 * unless told, a password in bad faith makes ten times the work: half a second of the process.
 */
const l33tMaxSubstitutions = 10;

/** Known by the service's own name to whoever sees its page. */
const ownWords = ['curewright', 'cure', 'wright'];

/** Made at its first use: the lists take a tenth of a second to index. */
let estimator: ZxcvbnFactory | undefined;
let commonPasswords: ReadonlySet<string> | undefined;

/** Throws `access.password` with a fault at `password`. `words`: see `passwordFault`. */
export function assertPassword(password: string, words: readonly string[]): void {
  const wrong = passwordFault(password, words);
  if (wrong === null) return;
  throw new DomainError('access.password', wrong.message, { cure: wrong.cure, faults: [wrong] });
}

/**
 * What is wrong with a new password, never with its text; null: it may be taken. `words` are what
 * somebody who knows the person would try: e-mail, name, the names of the yards.
 */
export function passwordFault(password: string, words: readonly string[]): Fault | null {
  const text = password.normalize('NFKC');
  const length = Array.from(text).length;
  if (length < shortest) {
    return refused(
      `${String(length)} characters are too few`,
      `Take at least ${String(shortest)}, four or more words that do not belong together, say; spaces count.`,
    );
  }
  if (length > longest) {
    return refused(`${String(length)} characters are too many`, `Take at most ${String(longest)}.`);
  }
  if (isCommon(text)) return refused('it is on the list of passwords that are tried first');
  const known = wordsOf([...words, ...ownWords]);
  if (restOf(text, known) < shortest / 2) {
    return refused('it is hardly more than your e-mail, your name, your yard or this service');
  }
  estimator ??= new ZxcvbnFactory({ dictionary, graphs: adjacencyGraphs, l33tMaxSubstitutions });
  const { guesses, sequence } = estimator.check(text, known);
  return guesses < leastGuesses ? refused(reasonOf(sequence)) : null;
}

const refused = (message: string, cure?: string): Fault =>
  fault('access.password', 'password', message, cure === undefined ? {} : { cure });

/** As it is, and without what is hung on at an end to satisfy somebody's rules (`Dragon2026!`). */
function isCommon(text: string): boolean {
  commonPasswords ??= new Set(dictionary['passwords-common']);
  const lower = text.toLowerCase();
  const bare = lower.replace(/^\P{L}+|\P{L}+$/gu, '');
  return commonPasswords.has(lower) || (bare !== lower && commonPasswords.has(bare));
}

/** Each whole and in its parts, without case and accents, the longest first. */
function wordsOf(words: readonly string[]): string[] {
  const parts = words.map(plain).flatMap((word) => [word, ...word.split(/[^\p{L}\p{N}]+/u)]);
  return [...new Set(parts)].filter((part) => part.length >= 3).sort((a, b) => b.length - a.length);
}

const plain = (text: string): string =>
  text.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase();

/** How many letters and digits are left where the known words are taken out. */
function restOf(text: string, known: readonly string[]): number {
  let rest = plain(text);
  for (const word of known) rest = rest.replaceAll(word, ' ');
  return Array.from(rest.replaceAll(/[^\p{L}\p{N}]/gu, '')).length;
}

const reasons: Partial<Record<string, string>> = {
  repeat: 'it repeats itself',
  sequence: 'it goes through an alphabet or counts',
  spatial: 'it follows the keys of a keyboard',
  date: 'it is hardly more than a date',
};

/** Of the longest piece that was recognised. */
function reasonOf(sequence: readonly MatchExtended[]): string {
  const longestFirst = [...sequence].sort((a, b) => b.token.length - a.token.length);
  const [piece] = longestFirst.filter(({ pattern }) => pattern !== 'bruteforce');
  return reasons[piece.pattern] ?? 'it is made of words that are tried first';
}
