import { DomainError, fault } from '#kernel/error.ts';

/** A place in a file. */
export interface Place {
  readonly file: string;
  /** From 1. */
  readonly line: number;
}

/** A line of a file with its number, split at white space. */
export interface Row extends Place {
  readonly words: readonly string[];
}

/** The rows of a text that hold anything. */
export function rowsOf(text: string, file: string): Row[] {
  return text
    .split(/\r?\n/)
    .map((content, k) => ({
      file,
      line: k + 1,
      words: content.trim().split(/\s+/).filter(Boolean),
    }))
    .filter((row) => row.words.length > 0);
}

/** `input.malformed` at one place of a file. */
export function malformed(at: Place, value: unknown, message: string, cure: string): DomainError {
  const where = `${at.file}:${String(at.line)}`;
  return new DomainError('input.malformed', `${where}: ${message}`, {
    cure,
    faults: [fault('input.malformed', where, message, { value, cure })],
  });
}

/** Word `k` of a row as an integer of at least `least`. Throws `input.malformed`. */
export function integerAt(row: Row, k: number, what: string, least: number): number {
  if (k >= row.words.length) {
    throw malformed(
      row,
      row.words.join(' '),
      `the row ends before ${what}`,
      `Give ${what} as number ${String(k + 1)} of the row.`,
    );
  }
  return integer(row, row.words[k], what, least);
}

/** A word as an integer of at least `least`. Throws `input.malformed`. */
export function integer(row: Place, word: string, what: string, least: number): number {
  const value = Number(word);
  if (!/^-?\d+$/.test(word) || !Number.isSafeInteger(value) || Math.abs(value) > LARGEST) {
    throw malformed(
      row,
      word,
      `${what} is "${word}", which is no whole number`,
      `Write ${what} as a whole number.`,
    );
  }
  if (value < least) {
    throw malformed(
      row,
      value,
      `${what} is ${word}, which is less than ${String(least)}`,
      `Give ${what} as at least ${String(least)}.`,
    );
  }
  return value;
}

/** Sums of a few thousand of these stay within 32 bits, in which the search counts. */
const LARGEST = 100_000;

/** The row must have exactly so many words. Throws `input.malformed`. */
export function expectWords(row: Row, count: number, what: string): void {
  if (row.words.length === count) return;
  throw malformed(
    row,
    row.words.join(' '),
    `${what} has ${String(row.words.length)} entries instead of ${String(count)}`,
    `Write exactly ${String(count)} entries, separated by blanks.`,
  );
}
