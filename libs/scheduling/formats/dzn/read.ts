import { malformed } from '../text.ts';
import { tokensOf, type Token } from './tokens.ts';

/** A value of a data file; what has no inner structure is the token itself. */
export type Item =
  | { readonly kind: 'plain'; readonly at: Token }
  | { readonly kind: 'set'; readonly at: Token; readonly items: readonly Token[] }
  | { readonly kind: 'list'; readonly at: Token; readonly items: readonly Item[] }
  | { readonly kind: 'table'; readonly at: Token; readonly rows: readonly (readonly Token[])[] };

/** The fields of a data file by name. */
export interface Fields {
  readonly file: string;
  readonly lastLine: number;
  readonly items: ReadonlyMap<string, Item>;
}

/**
 * Reads assignments `name = value;` as MiniZinc data files have them, of the values that the
 * benchmark files use: numbers, words, sets, lists of these, and tables of numbers or words.
 * Throws `input.malformed`.
 */
export function readDzn(text: string, file: string): Fields {
  const reader = new Reader(tokensOf(text, file), file);
  const items = new Map<string, Item>();
  while (!reader.atEnd()) {
    const name = reader.take('a name', (token) => /^[A-Za-z_]/.test(token));
    if (items.has(name.text)) {
      throw malformed(
        name,
        name.text,
        `"${name.text}" is given twice`,
        'Give each field of the file once.',
      );
    }
    reader.take('"=" after the name of a field', (token) => token === '=');
    items.set(name.text, reader.item());
    reader.take(`";" after the value of "${name.text}"`, (token) => token === ';');
  }
  return { file, lastLine: reader.lastLine(), items };
}

const isPlain = (token: string): boolean => /^[\w-]/.test(token);

class Reader {
  private readonly tokens: readonly Token[];
  private readonly file: string;
  private next = 0;

  constructor(tokens: readonly Token[], file: string) {
    this.tokens = tokens;
    this.file = file;
  }

  atEnd(): boolean {
    return this.next >= this.tokens.length;
  }

  lastLine(): number {
    return this.tokens.at(-1)?.line ?? 1;
  }

  take(what: string, fits: (token: string) => boolean): Token {
    const token = this.tokens.at(this.next);
    if (this.next >= this.tokens.length || token === undefined || !fits(token.text)) {
      const found = this.atEnd() ? undefined : token;
      throw malformed(
        found ?? { file: this.file, line: this.lastLine() },
        found?.text ?? '',
        `${what} is expected${found === undefined ? ' at the end' : `, not "${found.text}"`}`,
        'Write each field as name = value; and close each bracket.',
      );
    }
    this.next += 1;
    return token;
  }

  item(): Item {
    const at = this.take('a value', (token) => isPlain(token) || /^(\[\|?|\{)$/.test(token));
    switch (at.text) {
      case '{':
        return { kind: 'set', at, items: this.until('}') };
      case '[':
        return { kind: 'list', at, items: this.list() };
      case '[|':
        return { kind: 'table', at, rows: this.rows() };
      default:
        return { kind: 'plain', at };
    }
  }

  /** Whether the next token is this one, which is then taken. */
  private passes(text: string): boolean {
    if (this.atEnd() || this.tokens[this.next].text !== text) return false;
    this.next += 1;
    return true;
  }

  private until(close: string): Token[] {
    const found: Token[] = [];
    while (!this.passes(close)) {
      found.push(this.take('a number or a word', isPlain));
      if (this.passes(close)) break;
      this.take(`"," or "${close}"`, (token) => token === ',');
    }
    return found;
  }

  private list(): Item[] {
    const found: Item[] = [];
    while (!this.passes(']')) {
      found.push(this.item());
      if (this.passes(']')) break;
      this.take('"," or "]"', (token) => token === ',');
    }
    return found;
  }

  private rows(): Token[][] {
    const rows: Token[][] = [[]];
    while (!this.passes('|]')) {
      if (this.passes('|')) {
        rows.push([]);
        continue;
      }
      rows[rows.length - 1].push(this.take('a number or a word', isPlain));
      this.passes(',');
    }
    return rows;
  }
}
