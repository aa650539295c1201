import { describe, expect, it } from 'vitest';
import { newTotpSecret, otpauthUri, stepOfCode, textOfSecret } from './totp.ts';

/** RFC 6238, Appendix B: seconds since 1970, T, and the code of eight digits by each hash. */
const published = [
  [59, 0x1, '94287082', '46119246', '90693936'],
  [1_111_111_109, 0x23523ec, '07081804', '68084774', '25091201'],
  [1_111_111_111, 0x23523ed, '14050471', '67062674', '99943326'],
  [1_234_567_890, 0x273ef07, '89005924', '91819424', '93441116'],
  [2_000_000_000, 0x3f940aa, '69279037', '90698825', '38618901'],
  [20_000_000_000, 0x27bc86aa, '65353130', '77737706', '47863826'],
] as const;

/** The seeds of the reference implementation (Appendix A): as long as each hash. */
const seed = (bytes: number): Uint8Array =>
  new TextEncoder().encode('1234567890'.repeat(7).slice(0, bytes));

describe('RFC 6238, Appendix B', () => {
  const rows = published.flatMap(([seconds, step, sha1, sha256, sha512]) => [
    { seconds, step, algorithm: 'SHA1' as const, code: sha1, bytes: 20 },
    { seconds, step, algorithm: 'SHA256' as const, code: sha256, bytes: 32 },
    { seconds, step, algorithm: 'SHA512' as const, code: sha512, bytes: 64 },
  ]);

  it.each(rows)('$algorithm at $seconds s: $code', ({ seconds, step, algorithm, code, bytes }) => {
    const kind = { algorithm, digits: 8 };
    expect(stepOfCode(seed(bytes), code, seconds * 1000, kind)).toBe(step);
    const other = String((Number(code) + 1) % 1e8).padStart(8, '0');
    expect(stepOfCode(seed(bytes), other, seconds * 1000, kind)).toBeNull();
  });

  it.each(published)('six digits are the last six of the eight (RFC 4226 5.3): %i s', (...row) => {
    const [seconds, step, sha1] = row;
    expect(stepOfCode(seed(20), sha1.slice(2), seconds * 1000)).toBe(step);
  });
});

describe('a code', () => {
  const code = '050471';
  const at = 1_111_111_111_000;
  const step = 0x23523ed;
  const begins = step * 30_000;

  it('is good for its own half minute and the two beside it', () => {
    expect(stepOfCode(seed(20), code, at)).toBe(step);
    expect(stepOfCode(seed(20), code, begins - 30_000)).toBe(step);
    expect(stepOfCode(seed(20), code, begins - 30_001)).toBeNull();
    expect(stepOfCode(seed(20), code, begins + 59_999)).toBe(step);
    expect(stepOfCode(seed(20), code, begins + 60_000)).toBeNull();
  });

  it('is good for its own secret only, and only as it is', () => {
    expect(stepOfCode(newTotpSecret(), code, at)).toBeNull();
    for (const wrong of ['', '50471', '0050471', '050471x', '05047', 'abcdef', '٠٥٠٤٧١']) {
      expect(stepOfCode(seed(20), wrong, at)).toBeNull();
    }
  });

  it('is read from a part of a larger buffer as from a buffer of its own', () => {
    const pool = new Uint8Array(64).fill(7);
    pool.set(seed(20), 13);
    expect(stepOfCode(pool.subarray(13, 33), code, at)).toBe(step);
    expect(stepOfCode(Buffer.from(pool.buffer, 13, 20), code, at)).toBe(step);
  });
});

describe('a secret', () => {
  it('has 160 bits, and is another each time', () => {
    const secrets = Array.from({ length: 20 }, newTotpSecret);
    expect(secrets.every(({ length }) => length === 20)).toBe(true);
    expect(new Set(secrets.map(textOfSecret)).size).toBe(20);
  });

  it('is shown in base 32 (RFC 4648, 10) and as the address that authenticators read', () => {
    expect(textOfSecret(new TextEncoder().encode('foobar'))).toBe('MZXW6YTBOI');
    const uri = new URL(otpauthUri(seed(20), 'maelle+boats@demo.invalid'));
    expect(uri.protocol).toBe('otpauth:');
    expect(uri.host).toBe('totp');
    expect(decodeURIComponent(uri.pathname)).toBe('/Curewright:maelle+boats@demo.invalid');
    expect(Object.fromEntries(uri.searchParams)).toEqual({
      issuer: 'Curewright',
      secret: 'GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ',
      algorithm: 'SHA1',
      digits: '6',
      period: '30',
    });
  });
});
