import { BlockList, isIP } from 'node:net';

/** Addresses that lead into the machine or its network, or nowhere (IANA special-purpose registries). */
const inside = new BlockList();
for (const [net, prefix] of [
  ['0.0.0.0', 8],
  ['10.0.0.0', 8],
  ['100.64.0.0', 10],
  ['127.0.0.0', 8],
  ['169.254.0.0', 16],
  ['172.16.0.0', 12],
  ['192.0.0.0', 24],
  ['192.0.2.0', 24],
  ['192.168.0.0', 16],
  ['198.18.0.0', 15],
  ['198.51.100.0', 24],
  ['203.0.113.0', 24],
  ['224.0.0.0', 4],
  ['240.0.0.0', 4],
] as const) {
  inside.addSubnet(net, prefix, 'ipv4');
}
for (const [net, prefix] of [
  ['::', 128],
  ['::1', 128],
  ['64:ff9b:1::', 48],
  ['100::', 64],
  ['2001:db8::', 32],
  ['fc00::', 7],
  ['fe80::', 10],
  ['ff00::', 8],
] as const) {
  inside.addSubnet(net, prefix, 'ipv6');
}

/** Whether an address is of no use to a stranger's push service: private, local, or none at all. */
export function isInside(address: string): boolean {
  const family = isIP(address);
  if (family === 0) return true;
  // An IPv4 address in IPv6's clothes is judged as what it is.
  return inside.check(address, family === 6 ? 'ipv6' : 'ipv4');
}

const localNames = /(?:^|\.)(?:localhost|local|internal|lan|home\.arpa|invalid|test|example)$/i;

/**
 * What is wrong with an address that notifications are to be sent to, in words after its name;
 * null: nothing. The service posts to it, so it may lead nowhere but out (`toLocal`: for tests,
 * to this machine as well, without TLS).
 */
export function endpointFault(endpoint: string, toLocal: boolean): string | null {
  if (!URL.canParse(endpoint)) return 'is no address';
  const { protocol, hostname, username, password, port } = new URL(endpoint);
  const host = hostname.replace(/^\[|\]$|\.$/g, '');
  if (toLocal && ['127.0.0.1', 'localhost', '::1'].includes(host)) return null;
  if (protocol !== 'https:') return 'has to begin with https:';
  if (username !== '' || password !== '') return 'may hold no name and no password';
  if (port !== '') return 'may name no port';
  if (isIP(host) !== 0 ? isInside(host) : localNames.test(host) || !host.includes('.')) {
    return 'leads to no push service';
  }
  return null;
}
