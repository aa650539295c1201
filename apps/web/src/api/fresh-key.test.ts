import { afterEach, describe, expect, it, vi } from 'vitest';
import { freshKey } from './fresh-key.ts';

const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

describe('a fresh key', () => {
  afterEach(() => {
    vi.unstubAllGlobals();
  });

  it('is a UUID, another one each time', () => {
    expect(freshKey()).toMatch(uuid);
    expect(freshKey()).not.toBe(freshKey());
  });

  it('is one also in a page that came without https', () => {
    const { crypto } = globalThis;
    vi.stubGlobal('crypto', {
      getRandomValues: (bytes: Uint8Array<ArrayBuffer>) => crypto.getRandomValues(bytes),
    });
    const keys = Array.from({ length: 50 }, freshKey);
    for (const key of keys) expect(key).toMatch(uuid);
    expect(new Set(keys).size).toBe(50);
  });
});
