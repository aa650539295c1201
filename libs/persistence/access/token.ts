import { createHash, randomBytes } from 'node:crypto';

/** A secret of 256 random bits that is shown once: of a session, a link, a program key. */
export function newToken(): string {
  return randomBytes(32).toString('base64url');
}

/** What is stored of it, so that a stolen table opens nothing. The secret is random: no salt is needed. */
export function hashOf(token: string): Uint8Array<ArrayBuffer> {
  return new Uint8Array(createHash('sha256').update(token).digest());
}
