import { createECDH, hkdfSync } from 'node:crypto';

/** Of the server that sends (RFC 8292): base64url without padding. */
export interface PushKeys {
  /** An uncompressed point of P-256, which browsers subscribe with. */
  readonly publicKey: string;
  readonly privateKey: string;
}

/** The order of P-256 (NIST SP 800-186, 3.2.1.3). */
const order = BigInt('0xffffffff00000000ffffffffffffffffbce6faada7179e84f3b9cac2fc632551');
/** 64 bits more than the order has: what is left of the bias counts for nothing (FIPS 186-5, A.2.1). */
const seedBytes = 40;

/**
 * The pair that signs notifications, out of the service's one key (HKDF, RFC 5869): every process
 * has the same, and nothing more has to be kept. With another SECRET_KEY browsers subscribe anew.
 */
export function pushKeys(secretKey: Uint8Array): PushKeys {
  const info = 'curewright push notifications, key pair of the sender';
  const seed = Buffer.from(hkdfSync('sha256', secretKey, new Uint8Array(), info, seedBytes));
  const scalar = (BigInt(`0x${seed.toString('hex')}`) % (order - 1n)) + 1n;
  const secret = Buffer.from(scalar.toString(16).padStart(64, '0'), 'hex');
  const pair = createECDH('prime256v1');
  pair.setPrivateKey(secret);
  return {
    publicKey: pair.getPublicKey('base64url', 'uncompressed'),
    privateKey: secret.toString('base64url'),
  };
}
