import { createHmac, timingSafeEqual } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';

export const csrfHeader = 'x-csrf-token';

/**
 * What a page sends back beside its cookie to show that it could read our answer (OWASP CSRF
 * Prevention Cheat Sheet, a token bound to the session by HMAC). It does not lead back to `token`.
 */
export function csrfOf(token: string): string {
  return createHmac('sha256', token).update('curewright csrf').digest('base64url');
}

export function provesSession(token: string, sent: unknown): boolean {
  if (typeof sent !== 'string') return false;
  const [expected, given] = [Buffer.from(csrfOf(token)), Buffer.from(sent)];
  return expected.length === given.length && timingSafeEqual(expected, given);
}

/**
 * Whether a browser says that a page of elsewhere made it send this. `ours` is the address that
 * people use; without TLS any name by which the request reached us will do, `localhost` or
 * `127.0.0.1`, for a page cannot choose the Host of its requests.
 */
export function isForeign(headers: IncomingHttpHeaders, ours: URL): boolean {
  const site = headers['sec-fetch-site'];
  // Fetch Metadata, 2.4: `none` is somebody typing an address.
  if (site !== undefined && site !== 'same-origin' && site !== 'none') return true;
  const { origin } = headers;
  return origin !== undefined && !isOurs(origin, headers.host, ours);
}

function isOurs(origin: string, host: string | undefined, ours: URL): boolean {
  if (origin === ours.origin) return true;
  if (ours.protocol === 'https:' || !URL.canParse(origin)) return false;
  return new URL(origin).host === host;
}
