import { describe, expect, it } from 'vitest';
import { DomainError } from '#kernel/error.ts';
import { seal, unseal } from './sealed.ts';

const bytes = (hex: string): Uint8Array => new Uint8Array(Buffer.from(hex, 'hex'));
const key = bytes('00'.repeat(32));
const secret = bytes('0102030405060708090a0b0c0d0e0f1011121314');

describe('a seal', () => {
  it('opens with its key, in its place', () => {
    expect(unseal(key, seal(key, secret, 'totp one'), 'totp one')).toEqual(secret);
    expect(unseal(key, seal(key, bytes(''), ''), '')).toEqual(bytes(''));
  });

  it('is AES-256-GCM: McGrew and Viega, The Galois/Counter Mode of Operation, test case 14', () => {
    const nonce = '00'.repeat(12);
    const tag = 'd0d1c8a799996bf0265b98b5d48ab919';
    const hidden = 'cea7403d4d606b6e074ec5d3baf39d18';
    expect(unseal(key, bytes(`01${nonce}${tag}${hidden}`), '')).toEqual(bytes('00'.repeat(16)));
  });

  it('is another each time, and shows nothing of what is in it', () => {
    const seals = Array.from({ length: 20 }, () => Buffer.from(seal(key, secret, 'totp one')));
    expect(new Set(seals.map((one) => one.subarray(1, 13).toString('hex'))).size).toBe(20);
    expect(seals.some((one) => one.includes(Buffer.from(secret)))).toBe(false);
  });

  it('opens neither with another key, nor elsewhere, nor with any bit changed or byte gone', () => {
    const sealed = seal(key, secret, 'totp one');
    const refuses = (open: () => unknown): void => {
      expect(open).toThrow(DomainError);
      expect(open).toThrow(/does not open with the key/);
    };
    refuses(() => unseal(bytes('01'.repeat(32)), sealed, 'totp one'));
    refuses(() => unseal(key, sealed, 'totp two'));
    for (let bit = 0; bit < sealed.length * 8; bit += 1) {
      const changed = new Uint8Array(sealed);
      changed[bit >> 3] ^= 1 << (bit & 7);
      refuses(() => unseal(key, changed, 'totp one'));
    }
    for (let length = 0; length < sealed.length; length += 1) {
      refuses(() => unseal(key, sealed.subarray(0, length), 'totp one'));
    }
  });
});
