import { expect, it } from 'vitest';
import { trustedProxies } from './trusted-proxies.ts';

it.each([
  '127.0.0.1',
  '::1',
  '10.1.2.3',
  '172.31.0.1',
  '192.168.0.9',
  '::ffff:10.0.0.1',
  'fd00::1',
  'fe80::1%eth0',
])('believes a proxy at %s', (address) => {
  expect(trustedProxies(1)(address, 0)).toBe(true);
  expect(trustedProxies(0)(address, 0)).toBe(false);
});

it.each(['192.0.2.7', '172.32.0.1', '2001:db8::1', '::ffff:192.0.2.7'])(
  'believes nobody at %s',
  (address) => {
    expect(trustedProxies(3)(address, 0)).toBe(false);
  },
);

it('believes as many as it is told of those that follow, wherever they are', () => {
  const trusted = trustedProxies(2);
  expect([0, 1, 2].map((hop) => trusted(hop === 0 ? '10.0.0.1' : '192.0.2.7', hop))).toEqual([
    true,
    true,
    false,
  ]);
});
