import { describe, expect, it } from 'vitest';
import { bearerOf, cookieHeader, credentialOf } from './token.ts';

describe('what a call shows', () => {
  it('is the bearer’s token (RFC 6750, 2.1), with or without the word', () => {
    const session = { by: 'session', token: 'abc' };
    for (const sent of ['Bearer abc', 'bearer  abc ', 'abc'])
      expect(bearerOf(sent)).toEqual(session);
    for (const sent of [
      undefined,
      '',
      'Bearer ',
      7,
      ['abc'],
      { token: 'abc' },
      'Basic dTpw',
      'Digest a="b", c',
    ]) {
      expect(bearerOf(sent)).toBeUndefined();
    }
  });

  it('is a program’s by what it begins with', () => {
    expect(bearerOf('Bearer cwk_abc')).toEqual({ by: 'key', token: 'cwk_abc' });
  });

  it('is what was sent on purpose before what the browser sends by itself', () => {
    const cookie = 'theme=dark; curewright_session=fromcookie';
    expect(credentialOf({ cookie }, false)).toEqual({ by: 'cookie', token: 'fromcookie' });
    const both = { cookie, authorization: 'Bearer given' };
    expect(credentialOf(both, false)).toEqual({ by: 'session', token: 'given' });
    expect(credentialOf({ cookie: 'curewright_session=' }, false)).toBeUndefined();
  });

  it('is, behind TLS, no cookie that a subdomain or a plain connection may have planted', () => {
    const planted = { cookie: 'curewright_session=planted' };
    expect(credentialOf(planted, true)).toBeUndefined();
    const own = { cookie: `${planted.cookie}; __Host-curewright_session=own` };
    expect(credentialOf(own, true)).toEqual({ by: 'cookie', token: 'own' });
  });

  it('is set so that no script and no other site’s form can use it', () => {
    const plain = 'curewright_session=t; Path=/; Max-Age=60; HttpOnly; SameSite=Lax';
    expect(cookieHeader('t', 60, false)).toBe(plain);
    expect(cookieHeader('t', 60, true)).toBe(`__Host-${plain}; Secure`);
  });
});
