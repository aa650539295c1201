import { expect, it } from 'vitest';
import { uidOf } from './uid.ts';

it('is the UUID of version 5 that RFC 9562 shows for a name in the space of DNS', () => {
  const dns = '6ba7b810-9dad-11d1-80b4-00c04fd430c8';
  expect(uidOf(dns, 'www.example.com')).toBe('2ed6657d-e927-568b-95e1-2665a8aea6a2');
});
