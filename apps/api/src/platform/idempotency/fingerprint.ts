import { createHash } from 'node:crypto';

/**
 * The same command with the same input has the same fingerprint, whatever the order of its fields.
 * Left out are a password, which could be guessed from a fast hash of it, and what the sender's clock
 * says, which is another at each attempt.
 */
export function fingerprint(command: string, input: unknown): string {
  return createHash('sha256')
    .update(`${command}\n${canonical(input)}`)
    .digest('hex');
}

const leftOut: ReadonlySet<string> = new Set(['password', 'sentAt']);

function canonical(value: unknown): string {
  return JSON.stringify(withDigests(value), (key, item: unknown) => {
    if (leftOut.has(key)) return undefined;
    return typeof item === 'object' && item !== null && !Array.isArray(item)
      ? Object.fromEntries(Object.entries(item).sort(([a], [b]) => (a < b ? -1 : 1)))
      : item;
  });
}

/** Bytes would be written out one by one, a photo's as some sixty million characters. */
function withDigests(value: unknown): unknown {
  if (value instanceof Uint8Array) return createHash('sha256').update(value).digest('hex');
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, item]) => [
      key,
      item instanceof Uint8Array ? withDigests(item) : (item as unknown),
    ]),
  );
}
