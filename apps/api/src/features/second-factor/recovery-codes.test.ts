import { describe, expect, it } from 'vitest';
import { newRecoveryCodes, recoveryHash } from './recovery-codes.ts';

describe('recovery codes', () => {
  const codes = Array.from({ length: 50 }, newRecoveryCodes).flat();

  it('come ten at a time, of 24 letters of 5 bits, no two alike', () => {
    expect(newRecoveryCodes()).toHaveLength(10);
    expect(new Set(codes).size).toBe(500);
    for (const code of codes) {
      expect(code).toMatch(/^([0-9abcdefghjkmnpqrstvwxyz]{4}-){5}[0-9abcdefghjkmnpqrstvwxyz]{4}$/);
    }
  });

  it('use the whole alphabet evenly (χ² of 31 degrees of freedom below its 99.99 % point, 69.2)', () => {
    const letters = codes.join('').replaceAll('-', '');
    const expected = letters.length / 32;
    let chiSquare = 0;
    for (const letter of '0123456789abcdefghjkmnpqrstvwxyz') {
      chiSquare += (letters.split(letter).length - 1 - expected) ** 2 / expected;
    }
    expect(chiSquare).toBeLessThan(69.2);
  });

  it('are known again however they are typed', () => {
    const hash = recoveryHash('0123-4567-89ab-cdef-ghjk-mnpq');
    expect(hash).toHaveLength(32);
    expect(recoveryHash(' O123 4567 89AB CDEF GHJK MNPQ ')).toEqual(hash);
    expect(recoveryHash('oI2345678' + '9abcdefghjkmnpq')).toEqual(hash);
    expect(recoveryHash('0123-4567-89ab-cdef-ghjk-mnpr')).not.toEqual(hash);
  });

  it('are not what a code of six digits is, nor anything else', () => {
    for (const other of ['123456', '', 'u'.repeat(24), '0'.repeat(23), '0'.repeat(25)]) {
      expect(recoveryHash(other)).toBeNull();
    }
  });
});
