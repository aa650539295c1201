import { describe, expect, it } from 'vitest';
import { endable } from './endable.ts';
import { leavable } from './leavable.ts';

/** Items up to `count`, then none for as long as the reader stays; and who watches them. */
function watched(count: number) {
  const seen = { left: false, watching: false, end: (_why: string): void => undefined };
  const items = leavable(async function* (left) {
    try {
      for (let k = 1; k <= count; k += 1) yield await Promise.resolve(k);
      await new Promise((resolve) => left.addEventListener('abort', resolve));
    } finally {
      seen.left = true;
    }
  });
  const stream = endable(
    items,
    (end: (why: string) => void) => {
      Object.assign(seen, { watching: true, end });
      return () => {
        seen.watching = false;
      };
    },
    (why) => `ended: ${why}`,
  );
  return { stream, seen };
}

describe('a stream that can be ended', () => {
  it('gives its items, then the reason, and lets go of its source', async () => {
    const { stream, seen } = watched(2);
    expect(await stream.next()).toEqual({ done: false, value: 1 });
    expect(await stream.next()).toEqual({ done: false, value: 2 });
    const waiting = stream.next();
    seen.end('signed out');
    expect(await waiting).toEqual({ done: false, value: 'ended: signed out' });
    expect(await stream.next()).toEqual({ done: true, value: undefined });
    await expect.poll(() => seen.left).toBe(true);
    expect(seen.watching).toBe(false);
  });

  it('puts the reason before items that wait', async () => {
    const { stream, seen } = watched(1_000);
    await stream.next();
    seen.end('signed out');
    expect(await stream.next()).toEqual({ done: false, value: 'ended: signed out' });
    expect(await stream.next()).toEqual({ done: true, value: undefined });
  });

  it('lets go of its source and its watcher when the reader leaves while it waits', async () => {
    const { stream, seen } = watched(1);
    await stream.next();
    const waiting = stream.next();
    await stream.return?.();
    expect(await waiting).toMatchObject({ done: true });
    await expect.poll(() => seen.left).toBe(true);
    expect(seen.watching).toBe(false);
  });
});
