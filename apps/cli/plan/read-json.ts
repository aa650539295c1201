import { readFileSync } from 'node:fs';
import { DomainError } from '#kernel/error.ts';
import { jsonFault } from './json-fault.ts';

/** Line and column, both from 1, of an offset into a text. */
function placeOf(text: string, offset: number): string {
  const before = text.slice(0, offset).split('\n');
  return `line ${String(before.length)}, column ${String(before[before.length - 1].length + 1)}`;
}

/** JSON from a text. Throws `input.malformed` with the place. */
export function parseJson(text: string, label: string): unknown {
  const plain = text.startsWith('\uFEFF') ? text.slice(1) : text;
  try {
    return JSON.parse(plain);
  } catch {
    const offset = jsonFault(plain);
    const near = plain.slice(offset, offset + 20).split('\n')[0];
    const found =
      offset >= plain.trimEnd().length
        ? 'the file ends too early'
        : `${JSON.stringify(near)} cannot stand here`;
    throw new DomainError(
      'input.malformed',
      `${label}, ${placeOf(plain, offset)}: this is not JSON: ${found}`,
      {
        cure: 'Correct the file there: a comma, quote or bracket is missing or too many.',
      },
    );
  }
}

/** JSON from a file. Throws `input.malformed` for a file that cannot be read or parsed. */
export function readJson(path: string, label: string): unknown {
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch {
    throw new DomainError('input.malformed', `${label} cannot be read`, {
      cure: 'Name a file that exists, from the folder you are in.',
    });
  }
  return parseJson(text, label);
}
