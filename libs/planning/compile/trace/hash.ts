import type { Problem } from '#scheduling/model/problem.ts';

/**
 * FNV-1a, 64 bits, over the UTF-8 bytes of a text, kept in two 32-bit halves.
 * Source: Fowler, Noll, Vo; draft-eastlake-fnv. The prime is 2^40 + 0x1b3.
 */
export function fnv64(text: string): string {
  let high = 0xcbf29ce4;
  let low = 0x84222325;
  for (const byte of new TextEncoder().encode(text)) {
    low ^= byte;
    // (high, low) * (2^40 + 0x1b3) mod 2^64; 0x1b3 * low may pass 2^32 but stays exact in a double.
    const product = (low >>> 0) * 0x1b3;
    high = (Math.imul(high, 0x1b3) + Math.floor(product / 0x1_0000_0000) + (low << 8)) >>> 0;
    low = product >>> 0;
  }
  const hex = (half: number): string => (half >>> 0).toString(16).padStart(8, '0');
  return hex(high) + hex(low);
}

/** JSON with the keys of every object in order, so that a trip through a database changes nothing. */
export function canonical(value: unknown): string {
  if (value === null || typeof value !== 'object') return JSON.stringify(value);
  if (Array.isArray(value)) {
    const items: readonly unknown[] = value;
    // Lag tables are most of a problem, and lists of numbers have no keys to sort.
    if (items.every((item) => typeof item === 'number')) return JSON.stringify(items);
    return `[${items.map(canonical).join(',')}]`;
  }
  const fields = Object.entries(value as Record<string, unknown>)
    .filter(([, field]) => field !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${fields.map(([key, field]) => `${JSON.stringify(key)}:${canonical(field)}`).join(',')}}`;
}

/** Names a problem: equal problems have equal hashes. It finds changes, it is no proof against forgery. */
export const problemHash = (problem: Problem): string => fnv64(canonical(problem));
