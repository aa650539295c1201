import { randomInt } from 'node:crypto';
import { hashOf } from '#persistence/access/token.ts';

/** Crockford's base 32: no letter of it is taken for a digit. */
const alphabet = '0123456789abcdefghjkmnpqrstvwxyz';

/**
 * 120 bits: NIST SP 800-63B-4 (look-up secret verifiers; from memory) lets secrets of at least 112
 * bits be kept under a plain hash, shorter ones only under a password's.
 */
const length = 24;
const groups = /.{4}/g;
const whole = new RegExp(`^[${alphabet}]{${String(length)}}$`);

const recoveryCodeCount = 10;

/** Fresh ones, in groups of four as they are shown and typed. */
export function newRecoveryCodes(): string[] {
  return Array.from({ length: recoveryCodeCount }, () => {
    const code = Array.from({ length }, () => alphabet.charAt(randomInt(alphabet.length))).join('');
    return (code.match(groups) ?? []).join('-');
  });
}

/** What of it is stored and looked for; null where the text is no recovery code at all. */
export function recoveryHash(typed: string): Uint8Array<ArrayBuffer> | null {
  const letters = typed
    .toLowerCase()
    .replaceAll(/[\s-]/g, '')
    .replaceAll('o', '0')
    .replaceAll(/[il]/g, '1');
  return whole.test(letters) ? hashOf(letters) : null;
}
