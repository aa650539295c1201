/**
 * An endless list whose reader may leave while it waits for the next item: `return()` aborts the
 * signal, and `make` ends its waiting with it. A plain generator would go on waiting.
 */
export function leavable<T>(
  make: (left: AbortSignal) => AsyncGenerator<T, void>,
): AsyncIterableIterator<T, void> {
  const leaving = new AbortController();
  const items = make(leaving.signal);
  return {
    next: () => items.next(),
    return: () => {
      leaving.abort();
      return items.return();
    },
    [Symbol.asyncIterator]() {
      return this;
    },
  };
}

/** Each item as another one; leaving it leaves `items`. */
export function mappedLeavable<T, U>(
  items: AsyncIterableIterator<T, void>,
  show: (item: T) => U,
): AsyncIterableIterator<U, void> {
  return leavable(async function* (left) {
    left.addEventListener('abort', () => void items.return?.(), { once: true });
    for await (const item of items) yield show(item);
  });
}
