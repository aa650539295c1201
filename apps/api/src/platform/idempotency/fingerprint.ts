import { createHash } from 'node:crypto';

/**
 * The same command with the same input has the same fingerprint, whatever the order of its fields.
 * A password is left out: one could be guessed from a fast hash of it.
 */
export function fingerprint(command: string, input: unknown): string {
  return createHash('sha256')
    .update(`${command}\n${canonical(input)}`)
    .digest('hex');
}

function canonical(value: unknown): string {
  return JSON.stringify(value, (key, item: unknown) => {
    if (key === 'password') return undefined;
    return typeof item === 'object' && item !== null && !Array.isArray(item)
      ? Object.fromEntries(Object.entries(item).sort(([a], [b]) => (a < b ? -1 : 1)))
      : item;
  });
}
