import { createHash } from 'node:crypto';

const parts = [
  [0, 8],
  [8, 12],
  [12, 16],
  [16, 20],
  [20, 32],
] as const;

/**
 * The UID of what a key names in one feed: a UUID made from both, of version 5 (RFC 9562, 5.5), as
 * RFC 7986, 5.3 asks for one that tells nothing and fits in 255 octets. Two feeds that both have a
 * task name it differently: a client that subscribes to both would else merge the two.
 */
export function uidOf(linkId: string, key: string): string {
  const space = Buffer.from(linkId.replaceAll('-', ''), 'hex');
  const bytes = createHash('sha1').update(space).update(key).digest().subarray(0, 16);
  bytes[6] = (bytes[6] & 0x0f) | 0x50;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = bytes.toString('hex');
  return parts.map(([from, to]) => hex.slice(from, to)).join('-');
}
