import { integer, malformed } from '../text.ts';
import type { Fields, Item } from './read.ts';
import type { Token } from './tokens.ts';

/** Smallest and largest number that a field may hold. */
export interface Range {
  readonly least: number;
  readonly most: number;
}

function itemOf<K extends Item['kind']>(
  { file, lastLine, items }: Fields,
  name: string,
  kind: K,
  form: string,
): Extract<Item, { kind: K }> {
  const item = items.get(name);
  if (item === undefined) {
    throw malformed(
      { file, line: lastLine },
      '',
      `the file has no field "${name}"`,
      `Give ${name} = ${form};`,
    );
  }
  if (!isA(item, kind)) {
    throw malformed(
      item.at,
      item.at.text,
      `"${name}" does not have the form ${form}`,
      `Give ${name} = ${form};`,
    );
  }
  return item;
}

const isA = <K extends Item['kind']>(item: Item, kind: K): item is Extract<Item, { kind: K }> =>
  item.kind === kind;

function numberOf(token: Token, name: string, { least, most }: Range): number {
  const value = integer(token, token.text, `an entry of "${name}"`, least);
  if (value <= most) return value;
  throw malformed(
    token,
    value,
    `an entry of "${name}" is ${String(value)}, which is more than ${String(most)}`,
    `Give at most ${String(most)}.`,
  );
}

function expectCount(at: Token, name: string, what: string, found: number, wanted: number): void {
  if (found === wanted) return;
  throw malformed(
    at,
    found,
    `"${name}" has ${String(found)} ${what} instead of ${String(wanted)}`,
    `Give exactly ${String(wanted)}.`,
  );
}

/** A number on its own. Throws `input.malformed`, as all of these do. */
export const numberField = (fields: Fields, name: string, least: number): number =>
  numberOf(itemOf(fields, name, 'plain', 'number').at, name, { least, most: Infinity });

/** A list of so many numbers. */
export function numbersField(fields: Fields, name: string, count: number, range: Range): number[] {
  const { at, items } = itemOf(fields, name, 'list', '[number, ..]');
  expectCount(at, name, 'entries', items.length, count);
  return items.map((item) => numberOf(item.at, name, range));
}

/** A list of so many sets of numbers. */
export function setsField(fields: Fields, name: string, count: number, range: Range): number[][] {
  const { at, items } = itemOf(fields, name, 'list', '[{number, ..}, ..]');
  expectCount(at, name, 'sets', items.length, count);
  return items.map((item) => {
    if (item.kind === 'set') return item.items.map((token) => numberOf(token, name, range));
    throw malformed(
      item.at,
      item.at.text,
      `an entry of "${name}" is no set`,
      'Write it as {number, ..}.',
    );
  });
}

function rowsField(fields: Fields, name: string, rows: number, columns: number): Token[][] {
  const item = itemOf(fields, name, 'table', '[| value, .. | .. |]');
  expectCount(item.at, name, 'rows', item.rows.length, rows);
  return item.rows.map((row) => {
    expectCount(row.at(0) ?? item.at, name, 'columns in a row', row.length, columns);
    return [...row];
  });
}

/** A table of numbers. */
export const tableField = (
  fields: Fields,
  name: string,
  rows: number,
  columns: number,
  range: Range,
): number[][] =>
  rowsField(fields, name, rows, columns).map((row) =>
    row.map((token) => numberOf(token, name, range)),
  );

/** A table of `true` and `false`. */
export const truthField = (
  fields: Fields,
  name: string,
  rows: number,
  columns: number,
): boolean[][] =>
  rowsField(fields, name, rows, columns).map((row) =>
    row.map((token) => {
      if (token.text === 'true') return true;
      if (token.text === 'false') return false;
      throw malformed(
        token,
        token.text,
        `an entry of "${name}" is "${token.text}"`,
        'Write true or false.',
      );
    }),
  );
