import { isIPv6 } from 'node:net';

/**
 * The address that is counted. A network of IPv6 gives each customer 2^64 addresses or more (RFC
 * 6177), so that a whole /64 is one; an IPv4 address written as IPv6 is the IPv4 address.
 */
export function sourceOf(address: string): string {
  const mapped = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address)?.[1];
  if (mapped !== undefined) return mapped;
  const plain = address.split('%', 1)[0];
  if (!isIPv6(plain)) return plain;
  const parts = plain.split('::').map((part) => part.split(':').filter(Boolean));
  const [head, tail = []] = parts;
  const missing = parts.length === 1 ? 0 : 8 - groups(head) - groups(tail);
  const all = [...head, ...Array.from({ length: missing }, () => '0'), ...tail];
  const network = all.slice(0, 4).map((group) => Number.parseInt(group, 16).toString(16));
  return `${network.join(':')}::/64`;
}

/** The last may be an IPv4 address and stands for two. */
const groups = (part: readonly string[]): number =>
  part.length + (part.at(-1)?.includes('.') === true ? 1 : 0);
