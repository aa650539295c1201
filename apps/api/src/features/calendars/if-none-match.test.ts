import { expect, it } from 'vitest';
import { hasAlready } from './if-none-match.ts';

it.each([
  ['"a"', true],
  ['W/"a"', true],
  ['"b", W/"a"', true],
  ['"b","a"', true],
  ['*', true],
  [undefined, false],
  ['', false],
  ['a', false],
  ['"b"', false],
  ['"aa", "b a"', false],
])('%s meets "a": %s', (sent, known) => {
  expect(hasAlready(sent, '"a"')).toBe(known);
});
