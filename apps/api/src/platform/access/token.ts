import type { IncomingHttpHeaders } from 'node:http';
import type { Caller } from './viewer.ts';

/** What a program's token begins with, so that no look-up of sessions is wasted on it. */
export const keyPrefix = 'cwk_';

/** What a call shows to say who it is from. */
export interface Credential {
  readonly by: NonNullable<Caller['by']>;
  readonly token: string;
}

/**
 * `Authorization: Bearer …` (RFC 6750, 2.1), with or without the word in a subscription's payload.
 * What is of another scheme (RFC 9110, 11.4), a proxy's `Basic …` say, is no token.
 */
export function bearerOf(authorization: unknown): Credential | undefined {
  if (typeof authorization !== 'string') return undefined;
  const token = authorization.replace(/^Bearer\s+/i, '').trim();
  if (token === '' || /\s/.test(token)) return undefined;
  return { by: token.startsWith(keyPrefix) ? 'key' : 'session', token };
}

/** A header that is sent on purpose comes before a cookie, which a browser sends by itself. */
export function credentialOf(
  headers: IncomingHttpHeaders,
  secure: boolean,
): Credential | undefined {
  return bearerOf(headers.authorization) ?? cookieOf(headers.cookie, secure);
}

function cookieOf(cookies: unknown, secure: boolean): Credential | undefined {
  if (typeof cookies !== 'string') return undefined;
  const sought = cookieName(secure);
  for (const cookie of cookies.split(';')) {
    const [name, token] = cookie.trim().split('=', 2);
    if (name === sought && token) return { by: 'cookie', token };
  }
  return undefined;
}

/** `__Host-` (RFC 6265bis, 4.1.3.2): no subdomain and no plain connection can plant one of the name. */
function cookieName(secure: boolean): string {
  return secure ? '__Host-curewright_session' : 'curewright_session';
}

/** HttpOnly keeps it from scripts; SameSite=Lax from other sites' forms and requests. */
export function cookieHeader(token: string, maxAgeSeconds: number, secure: boolean): string {
  const parts = [
    `${cookieName(secure)}=${token}`,
    'Path=/',
    `Max-Age=${String(maxAgeSeconds)}`,
    'HttpOnly',
    'SameSite=Lax',
  ];
  return [...parts, ...(secure ? ['Secure'] : [])].join('; ');
}
