import { createHmac } from 'node:crypto';
import { z } from 'zod';
import { testPassword, type TestApi } from './api.ts';

const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';

/**
 * What an authenticator shows at a moment (ms since 1970): RFC 4226 5.3 and RFC 6238 4 by
 * node:crypto, apart from the library that the service asks.
 */
export function codeAt(secret: string, at = Date.now()): string {
  const step = Buffer.alloc(8);
  step.writeBigUInt64BE(BigInt(Math.floor(at / 30_000)));
  const mac = createHmac('sha1', fromBase32(secret)).update(step).digest();
  const number = mac.readUInt32BE(mac[19] & 0x0f) & 0x7fffffff;
  return String(number % 1_000_000).padStart(6, '0');
}

export function fromBase32(text: string): Buffer {
  const fives = Array.from(text, (l) => alphabet.indexOf(l).toString(2).padStart(5, '0'));
  const bits = fives.join('');
  return Buffer.from((bits.match(/.{8}/g) ?? []).map((byte) => parseInt(byte, 2)));
}

export interface Totp {
  readonly secret: string;
  readonly recoveryCodes: readonly string[];
  /** Under which the session goes on. */
  readonly token: string;
}

/** Sets up one-time codes in the session of `token`; the code of the present step is used up. */
export async function setUpTotp(api: TestApi, token: string): Promise<Totp> {
  const begun = await api.rest('POST', '/second-factor/totp', {
    token,
    body: { password: testPassword },
  });
  const secret = z.string().parse(begun.body.secret);
  const confirmed = await api.rest('POST', '/second-factor/totp/confirm', {
    token,
    body: { code: codeAt(secret) },
  });
  const { recoveryCodes, session } = z
    .object({ recoveryCodes: z.array(z.string()), session: z.object({ token: z.string() }) })
    .parse(confirmed.body);
  return { secret, recoveryCodes, token: session.token };
}
