import { createCipheriv, createDecipheriv, randomBytes } from 'node:crypto';
import { DomainError } from '#kernel/error.ts';

/**
 * Encryption of what has to be read again, under the service's key: AES-256-GCM with a random
 * nonce of 96 bits (NIST SP 800-38D 8.2.2: 2^32 of them under one key are far from a danger).
 * A seal is the format's number, the nonce, the tag, and the text's length of cipher.
 */
const format = 1;
const cipher = 'aes-256-gcm';
const nonceBytes = 12;
const tagBytes = 16;
const headBytes = 1 + nonceBytes + tagBytes;

/** `about` says what it is and whose: a seal that is copied to another place does not open there. */
export function seal(key: Uint8Array, plain: Uint8Array, about: string): Uint8Array<ArrayBuffer> {
  const nonce = randomBytes(nonceBytes);
  const sealing = createCipheriv(cipher, key, nonce, { authTagLength: tagBytes });
  sealing.setAAD(Buffer.from(about, 'utf8'));
  const hidden = Buffer.concat([sealing.update(plain), sealing.final()]);
  return new Uint8Array(Buffer.concat([Buffer.of(format), nonce, sealing.getAuthTag(), hidden]));
}

/** Throws `service.unavailable` where the key is another, or the seal was changed or moved. */
export function unseal(
  key: Uint8Array,
  sealed: Uint8Array,
  about: string,
): Uint8Array<ArrayBuffer> {
  if (sealed.length < headBytes || sealed[0] !== format) throw unreadable();
  const nonce = sealed.subarray(1, 1 + nonceBytes);
  const opening = createDecipheriv(cipher, key, nonce, { authTagLength: tagBytes });
  opening.setAAD(Buffer.from(about, 'utf8'));
  opening.setAuthTag(sealed.subarray(1 + nonceBytes, headBytes));
  try {
    const plain = [opening.update(sealed.subarray(headBytes)), opening.final()];
    return new Uint8Array(Buffer.concat(plain));
  } catch {
    throw unreadable();
  }
}

function unreadable(): DomainError {
  return new DomainError(
    'service.unavailable',
    'What was stored encrypted does not open with the key that the service runs with.',
    {
      cure: 'Use a recovery code, and tell whoever runs the service that SECRET_KEY is not the one it was.',
    },
  );
}
