import { createHash, randomBytes } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';

const sessionCookie = 'curewright_session';

/** 256 random bits; only its hash is stored, so that a stolen table opens no session. */
export function newToken(): string {
  return randomBytes(32).toString('base64url');
}

export function hashOf(token: string): Uint8Array<ArrayBuffer> {
  return new Uint8Array(createHash('sha256').update(token).digest());
}

/** `Authorization: Bearer …` (RFC 6750), with or without the word in a subscription's payload. */
export function bearerToken(authorization: unknown): string | undefined {
  if (typeof authorization !== 'string') return undefined;
  const token = authorization.replace(/^Bearer\s+/i, '').trim();
  return token === '' ? undefined : token;
}

export function tokenOf(headers: IncomingHttpHeaders): string | undefined {
  return bearerToken(headers.authorization) ?? cookieToken(headers.cookie);
}

function cookieToken(cookies: string | undefined): string | undefined {
  for (const cookie of cookies?.split(';') ?? []) {
    const [name, value] = cookie.trim().split('=', 2);
    if (name === sessionCookie && value) return value;
  }
  return undefined;
}

/** HttpOnly keeps it from scripts; SameSite=Lax from other sites' forms and requests. */
export function cookieHeader(token: string, maxAgeSeconds: number, secure: boolean): string {
  const parts = [
    `${sessionCookie}=${token}`,
    'Path=/',
    `Max-Age=${String(maxAgeSeconds)}`,
    'HttpOnly',
    'SameSite=Lax',
  ];
  return [...parts, ...(secure ? ['Secure'] : [])].join('; ');
}
