import { BlockList, isIPv6 } from 'node:net';

/** Loopback, private and link-local networks (RFC 1918, 3927, 4193, 4291): where one's own proxy comes from. */
const near = new BlockList();
for (const [network, prefix] of [
  ['127.0.0.0', 8],
  ['10.0.0.0', 8],
  ['172.16.0.0', 12],
  ['192.168.0.0', 16],
  ['169.254.0.0', 16],
] as const) {
  near.addSubnet(network, prefix, 'ipv4');
}
near.addAddress('::1', 'ipv6');
near.addSubnet('fc00::', 7, 'ipv6');
near.addSubnet('fe80::', 10, 'ipv6');

/**
 * Which hops of X-Forwarded-For to believe, counted from the socket: the first `count`, if the
 * socket's own end is near. A caller from far away that comes past the proxy could else make up
 * where it comes from.
 */
export function trustedProxies(count: number): (address: string, hop: number) => boolean {
  return (address, hop) => hop < count && (hop > 0 || isNear(address));
}

const isNear = (address: string): boolean =>
  near.check(address.split('%', 1)[0], isIPv6(address) ? 'ipv6' : 'ipv4');
