/** The k-th of n. */
export interface Slice {
  readonly k: number;
  readonly n: number;
}

/** The k-th of n runs of neighbours, all of which together are all. */
export function sliceOf<T>(all: readonly T[], { k, n }: Slice): readonly T[] {
  const edge = (part: number): number => Math.round((part * all.length) / n);
  return all.slice(edge(k - 1), edge(k));
}

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

/**
 * The same in such an order that every run of neighbours is spread evenly over the given order: in
 * steps of about the golden section, from the middle on.
 */
export function mixed<T>(all: readonly T[]): T[] {
  const { length } = all;
  let step = Math.max(1, Math.round(length * 0.618));
  while (divisor(length, step) > 1) step -= 1;
  return all.map((_, k) => all[((length >> 1) + k * step) % length]);
}
