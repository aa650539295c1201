import { describe, expect, it } from 'vitest';
import { clauseLimits, isOutOfMemory, LEAST_MB, memoryWatch, threadsWithin } from './memory.ts';

describe('a limit of memory', () => {
  it('has room for whole threads, and for one at least', () => {
    expect(threadsWithin(null, 4)).toBe(4);
    expect(threadsWithin(3 * LEAST_MB + 1, 8)).toBe(3);
    expect(threadsWithin(3 * LEAST_MB + 1, 2)).toBe(2);
    expect(threadsWithin(1, 4)).toBe(1);
  });

  it('gives each searcher its share for clauses, whatever the threads', () => {
    expect(clauseLimits(null, 4)).toEqual({});
    expect(clauseLimits(80, 4)).toEqual({ clauseBytes: 10 * 1024 * 1024 });
  });

  it('is short where more is held for some measurements in a row, and never without a limit', async () => {
    const isEverShort = async (most: number | null): Promise<boolean> => {
      const watch = memoryWatch(most);
      for (let look = 0; look < 4; look += 1) {
        if (watch.isShort()) return true;
        await new Promise((resolve) => setTimeout(resolve, 60));
      }
      return false;
    };
    expect(await isEverShort(1)).toBe(true);
    expect(await isEverShort(1_000_000)).toBe(false);
    expect(await isEverShort(null)).toBe(false);
  });

  it('is told from other failures', () => {
    const full = Object.assign(new Error('full'), { code: 'ERR_WORKER_OUT_OF_MEMORY' });
    expect([full, new Error('full'), null].map(isOutOfMemory)).toEqual([true, false, false]);
  });
});
