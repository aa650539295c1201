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
