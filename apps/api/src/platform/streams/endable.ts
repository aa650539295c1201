import { leavable } from './leavable.ts';

export function isEndless(answer: unknown): answer is AsyncIterableIterator<unknown, void> {
  return typeof answer === 'object' && answer !== null && Symbol.asyncIterator in answer;
}

/**
 * The items, until `watch` says why they end: then that, as a last one, and no more. Leaving it
 * leaves the items and stops watching. A source that is no `leavable` ends at its next item only.
 */
export function endable<T, W>(
  items: AsyncIterableIterator<T, void>,
  watch: (end: (why: W) => void) => () => void,
  last: (why: W) => unknown,
): AsyncIterableIterator<unknown, void> {
  return leavable(async function* (left) {
    const reasons: W[] = [];
    const leave = (): void => void items.return?.();
    const stop = watch((why) => {
      reasons.push(why);
      leave();
    });
    left.addEventListener('abort', leave, { once: true });
    try {
      for (;;) {
        const next = await items.next();
        if (reasons.length > 0) {
          yield last(reasons[0]);
          return;
        }
        if (next.done === true) return;
        yield next.value;
      }
    } finally {
      stop();
      leave();
    }
  });
}
