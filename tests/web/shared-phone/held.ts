import type { Page } from 'playwright-core';

/** All that a browser profile holds of people, outside of cookies that no script reads. */
export interface Held {
  /** Account that the device is opened for; null: none. */
  readonly openedFor: string | null;
  /** `account name` of each answer kept. */
  readonly readings: readonly string[];
  /** `account words` of each thing that is not sent yet. */
  readonly queue: readonly string[];
  /** Addresses of the caches. */
  readonly cached: readonly string[];
  /** Everything in `localStorage` and `sessionStorage`, as one text. */
  readonly stores: string;
}

export function held(page: Page): Promise<Held> {
  return page.evaluate(async () => {
    const asked = <T>(request: IDBRequest<T>): Promise<T> =>
      new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(new Error(String(request.error)));
      });
    const db = await asked(indexedDB.open('curewright'));
    const store = (name: string): IDBObjectStore => db.transaction(name).objectStore(name);
    const texts = (keys: readonly IDBValidKey[]): string[] =>
      keys.map((key) => (Array.isArray(key) ? key.map(String).join(' ') : JSON.stringify(key)));
    const owner: unknown = await asked(store('device').get('account'));
    const readings = texts(await asked(store('readings').getAllKeys()));
    // Written by the page under test.
    const kept: unknown = await asked(store('queue').getAll());
    const deeds = kept as { accountId: string; words: string }[];
    db.close();
    const open = await Promise.all((await caches.keys()).map((name) => caches.open(name)));
    const requests = (await Promise.all(open.map((cache) => cache.keys()))).flat();
    return {
      openedFor: typeof owner === 'string' ? owner : null,
      readings,
      queue: deeds.map(({ accountId, words }) => `${accountId} ${words}`),
      cached: requests.map(({ url }) => new URL(url).pathname),
      stores: JSON.stringify([localStorage, sessionStorage].map((one) => Object.entries(one))),
    };
  });
}

/** What a person can read on the page: not what is hidden. */
export const shown = (page: Page): Promise<string> =>
  page.evaluate(() => `${document.title}\n${document.body.innerText}`);
