import { describe, expect, it } from 'vitest';
import { DomainError } from '#kernel/error.ts';
import { assertStorable } from './storable.ts';

function refusalOf(value: unknown, name?: string): DomainError | null {
  try {
    assertStorable(value, name);
    return null;
  } catch (error) {
    if (error instanceof DomainError) return error;
    throw error;
  }
}

describe('what can be kept', () => {
  it('is any JSON without NUL and halves of characters', () => {
    const pair = '\u{1F6A4}';
    expect(refusalOf({ a: [1, null, true, { b: `é ${pair} \\u0000` }] })).toBeNull();
    expect(refusalOf(undefined)).toBeNull();
  });

  it.each([
    [{ boats: [{ name: 'a\0b' }] }, 'boats[0].name', 'NUL'],
    [{ boats: ['\uD83D'] }, 'boats[0]', 'surrogate'],
    [{ boats: { 'a\0': 1 } }, 'boats.a\uFFFD', 'NUL'],
    ['\uDC00', '', 'surrogate'],
  ])('%j is refused by its path %s', (value, path, what) => {
    const refusal = refusalOf(value);
    expect(refusal?.code).toBe('input.field');
    expect(refusal?.faults).toMatchObject([
      { path, message: expect.stringContaining(what) as string },
    ]);
    // The answer itself can be written.
    expect(JSON.stringify(refusal?.faults)).not.toMatch(/\\u0000|\\ud83d|\\udc00/i);
  });

  it('is not nested without end', () => {
    const nested = JSON.parse(`${'['.repeat(100_000)}${']'.repeat(100_000)}`) as unknown;
    expect(refusalOf(nested)?.code).toBe('input.limit');
    expect(refusalOf(JSON.parse(`${'['.repeat(40)}${']'.repeat(40)}`))).toBeNull();
  });

  it('has its paths begun by a name', () => {
    expect(refusalOf({ a: '\0' }, 'variables')?.faults[0]?.path).toBe('variables.a');
  });
});
