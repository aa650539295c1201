import { HOTP, Secret, TOTP } from 'otpauth';

/** How a code is made. What the product uses is `ours`; the others are in RFC 6238's vectors. */
interface CodeKind {
  readonly algorithm: 'SHA1' | 'SHA256' | 'SHA512';
  readonly digits: number;
}

/** What every authenticator knows (RFC 6238, RFC 4226 5.3). */
const ours: CodeKind = { algorithm: 'SHA1', digits: 6 };

/** RFC 6238 4.1: X, in seconds. */
const period = 30;

/** RFC 6238 5.2 advises one step for the way and for clocks that differ; either way here. */
const drift = 1;

/** As long as the hash of the code (RFC 4226 4, R6), in bytes. */
const secretBytes = 20;

export function newTotpSecret(): Uint8Array<ArrayBuffer> {
  return new Uint8Array(new Secret({ size: secretBytes }).bytes);
}

/**
 * The time step (RFC 6238's T) that the code belongs to, or null. `now` is in milliseconds since
 * 1970. Whoever takes the code remembers its step, and takes none up to it again (5.2).
 */
export function stepOfCode(
  secret: Uint8Array,
  code: string,
  now: number,
  { algorithm, digits }: CodeKind = ours,
): number | null {
  // The library compares bytes, and throws where letters of other scripts make more of them.
  if (!/^[0-9]+$/.test(code)) return null;
  const counter = TOTP.counter({ period, timestamp: now });
  const delta = HOTP.validate({
    token: code,
    secret: secretOf(secret),
    algorithm,
    digits,
    counter,
    window: drift,
  });
  return delta === null ? null : counter + delta;
}

/** Of the secret, as a person types it where no picture can be taken (RFC 4648, base 32). */
export function textOfSecret(secret: Uint8Array): string {
  return secretOf(secret).base32;
}

/** What an authenticator reads as a picture; `account` is shown in it. */
export function otpauthUri(secret: Uint8Array, account: string): string {
  return new TOTP({
    ...ours,
    period,
    secret: secretOf(secret),
    issuer: 'Curewright',
    label: account,
  }).toString();
}

/** A copy, since the library takes the whole buffer of an array, whatever part of it is meant. */
function secretOf(bytes: Uint8Array): Secret {
  return new Secret({ buffer: new Uint8Array(bytes).buffer });
}
