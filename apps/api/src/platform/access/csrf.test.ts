import { createHmac } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { csrfOf, isForeign, provesSession } from './csrf.ts';

const token = 'ZpHq3cX1p0wq6mJd2k9rT8sV5uYbN4eL7aGfK1iOcQx';

describe('the token of a page', () => {
  it('follows from the session’s by HMAC, and from no other session’s', () => {
    const expected = createHmac('sha256', token).update('curewright csrf').digest('base64url');
    expect(csrfOf(token)).toBe(expected);
    expect(csrfOf(`${token}x`)).not.toBe(expected);
    expect(expected).not.toContain(token);
  });

  it('proves the session, and nothing else does', () => {
    expect(provesSession(token, csrfOf(token))).toBe(true);
    const others = [csrfOf('another'), token, '', `${csrfOf(token)} `, undefined, [csrfOf(token)]];
    expect(others.filter((sent) => provesSession(token, sent))).toEqual([]);
  });
});

// Fetch Metadata (W3C), 2.4; the Fetch standard, "Origin header".
describe('a request that a page of elsewhere makes a browser send', () => {
  const ours = new URL('https://yard.example/');

  it('says so by its origin or its site', () => {
    const foreign = [
      { origin: 'https://evil.example' },
      { origin: 'http://yard.example' },
      { origin: 'https://yard.example:8443' },
      { origin: 'https://yard.example.evil.example' },
      { origin: 'null' },
      { origin: '' },
      { 'sec-fetch-site': 'cross-site' },
      { 'sec-fetch-site': 'same-site', origin: 'https://yard.example' },
    ];
    for (const headers of foreign) {
      const seen = isForeign({ ...headers, host: 'yard.example' }, ours);
      expect(seen, JSON.stringify(headers)).toBe(true);
    }
  });

  it('is told from our own pages’ and from programs’', () => {
    const own = [
      {},
      { origin: 'https://yard.example' },
      { origin: 'https://yard.example', 'sec-fetch-site': 'same-origin' },
      { 'sec-fetch-site': 'none' },
    ];
    for (const headers of own)
      expect(isForeign(headers, ours), JSON.stringify(headers)).toBe(false);
  });

  it('is one of ours under any name that reached us, while there is no TLS', () => {
    const local = new URL('http://localhost:3000');
    const headers = { origin: 'http://127.0.0.1:3000', host: '127.0.0.1:3000' };
    expect(isForeign(headers, local)).toBe(false);
    expect(isForeign({ ...headers, origin: 'http://127.0.0.1:5000' }, local)).toBe(true);
    const secure = { origin: 'https://other.example', host: 'other.example' };
    expect(isForeign(secure, ours)).toBe(true);
  });
});
