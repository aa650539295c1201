import { describe, expect, it } from 'vitest';
import { canonical, fnv64 } from './hash.ts';

describe('fnv64', () => {
  // Test vectors of the authors (Fowler, Noll, Vo), FNV-1a 64.
  it.each([
    ['', 'cbf29ce484222325'],
    ['a', 'af63dc4c8601ec8c'],
    ['foobar', '85944171f73967e8'],
  ])('%j', (text, hash) => {
    expect(fnv64(text)).toBe(hash);
  });
});

describe('canonical', () => {
  it('does not depend on the order of keys, but on everything else', () => {
    expect(canonical({ b: [1, 2], a: { d: null, c: 'x' } })).toBe(
      '{"a":{"c":"x","d":null},"b":[1,2]}',
    );
    expect(canonical({ a: { c: 'x', d: null }, b: [1, 2] })).toBe(
      canonical({ b: [1, 2], a: { d: null, c: 'x' } }),
    );
    expect(canonical({ a: [2, 1] })).not.toBe(canonical({ a: [1, 2] }));
  });
});
