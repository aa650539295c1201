import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { DomainError } from '#kernel/error.ts';
import { leavable, mappedLeavable } from './leavable.ts';
import { eventIdOf, sseOf } from './sse.ts';

/** 1, 2, … `count`, then nothing for as long as the reader stays. */
function numbers(count: number, ends: boolean) {
  const seen = { left: false };
  const items = leavable(async function* (left) {
    try {
      for (let k = 1; k <= count; k += 1) yield k;
      if (ends) return;
      await new Promise((resolve) => left.addEventListener('abort', resolve));
    } finally {
      seen.left = true;
    }
  });
  return { items, seen };
}

const message = (k: number) => ({ id: String(k), event: 'count', data: { k } });

describe('a stream of server-sent events', () => {
  it('has each item as an event, and ends with them', async () => {
    const { items, seen } = numbers(2, true);
    const stream = sseOf(items, message).getStream();
    const text = (await stream.toArray()).map(String).join('');
    expect(text).toBe(
      ':\n\nid: 1\nevent: count\ndata: {"k":1}\n\nid: 2\nevent: count\ndata: {"k":2}\n\n',
    );
    expect(seen.left).toBe(true);
  });

  it('lets go of its source when the client leaves, even while it waits', async () => {
    const { items, seen } = numbers(1, false);
    const stream = sseOf(
      mappedLeavable(items, (k) => k * 10),
      message,
    ).getStream();
    const got: string[] = [];
    stream.on('data', (chunk) => got.push(String(chunk)));
    await expect.poll(() => got.join('')).toContain('"k":10');
    expect(seen.left).toBe(false);
    stream.destroy();
    await expect.poll(() => seen.left).toBe(true);
  });

  it('reads no further than its client does', async () => {
    let given = 0;
    const items = leavable(async function* () {
      for (given = 0; given < 100_000; given += 1) {
        await Promise.resolve();
        yield given;
      }
    });
    const stream = sseOf(items, message).getStream();
    stream.read();
    await sleep(50);
    expect(given).toBeGreaterThan(0);
    expect(given).toBeLessThan(10_000);
    stream.destroy();
  });

  it('breaks off where its source fails', async () => {
    const items = leavable(async function* () {
      yield 1;
      await Promise.reject(new Error('the log cannot be read'));
    });
    await expect(sseOf(items, message).getStream().toArray()).rejects.toThrow('cannot be read');
  });
});

describe('the id of an event', () => {
  it('is a number as text, or nothing', () => {
    expect(eventIdOf('12', 'after')).toBe(12n);
    expect([undefined, null, ''].map((sent) => eventIdOf(sent, 'after'))).toEqual([
      null,
      null,
      null,
    ]);
    for (const wrong of ['-1', '1e3', 'x', ['1'], '1'.repeat(19)]) {
      expect(() => eventIdOf(wrong, 'after')).toThrow(DomainError);
    }
  });
});
