import type { Page } from 'playwright-core';

/** Titles that the service worker would show, without a desktop that shows them. */
export async function listening(page: Page): Promise<() => Promise<unknown>> {
  const [worker] = page.context().serviceWorkers();
  await worker.evaluate(() => {
    const seen: string[] = [];
    Reflect.set(globalThis, 'seen', seen);
    Reflect.set(
      Reflect.get(globalThis, 'registration') as object,
      'showNotification',
      (title: string) => {
        seen.push(title);
        return Promise.resolve();
      },
    );
  });
  return () => worker.evaluate(() => Reflect.get(globalThis, 'seen') as unknown);
}

interface Told {
  readonly accountId: string;
  readonly yardId: string;
  readonly title: string;
  readonly body: string;
}

/** A push service: what it delivers comes to the service worker. */
export async function pushing(page: Page, origin: string): Promise<(told: Told) => Promise<void>> {
  const devtools = await page.context().newCDPSession(page);
  const registered = new Promise<string>((resolve) => {
    devtools.on('ServiceWorker.workerRegistrationUpdated', ({ registrations }) => {
      const [one] = registrations;
      if (registrations.length > 0) resolve(one.registrationId);
    });
  });
  await devtools.send('ServiceWorker.enable');
  const registrationId = await registered;
  return async (told) => {
    const data = JSON.stringify({ tag: crypto.randomUUID(), ...told });
    await devtools.send('ServiceWorker.deliverPushMessage', { origin, registrationId, data });
  };
}

/**
 * Has notices stand on the device, by tag and account, in pages opened from now on: the browser of the
 * tests has no desktop for them. Gives the tags of those that a page has taken away since it was opened.
 */
export async function standing(
  page: Page,
  yardId: string,
  notices: readonly (readonly [tag: string, accountId: string])[],
): Promise<() => Promise<string[]>> {
  const tellsOf = (told: {
    readonly yardId: string;
    readonly notices: readonly (readonly [string, string])[];
  }): void => {
    const closed: string[] = [];
    Reflect.set(globalThis, 'closedNotices', closed);
    const all = told.notices.map(([tag, accountId]) => ({
      tag,
      data: { accountId, yardId: told.yardId },
      close: () => closed.push(tag),
    }));
    const getNotifications = () => Promise.resolve(all.filter(({ tag }) => !closed.includes(tag)));
    Reflect.set(ServiceWorkerRegistration.prototype, 'getNotifications', getNotifications);
  };
  await page.addInitScript(tellsOf, { yardId, notices });
  return () => page.evaluate<string[]>('closedNotices.toSorted()');
}

/** What the device knows of its subscription from now on: `account id`. */
const keptPush = (page: Page, kept: string): Promise<void> =>
  page.evaluate(
    (push) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('curewright');
        opening.onerror = () => reject(new Error(String(opening.error)));
        opening.onsuccess = () => {
          const writing = opening.result.transaction('device', 'readwrite');
          writing.objectStore('device').put(push, 'push');
          writing.oncomplete = () => {
            opening.result.close();
            resolve();
          };
        };
      }),
    kept,
  );

/** The browser gives up the address that it was subscribed under, and has another one for whoever asks. */
export async function givenUp(page: Page, kept: string, fresh: object): Promise<void> {
  await keptPush(page, kept);
  const [worker] = page.context().serviceWorkers();
  await worker.evaluate((made) => {
    const subscription = { toJSON: () => made, unsubscribe: () => Promise.resolve(true) };
    const { pushManager } = Reflect.get(globalThis, 'registration') as ServiceWorkerRegistration;
    Reflect.set(pushManager, 'subscribe', () => Promise.resolve(subscription));
    const Change = Reflect.get(globalThis, 'ExtendableEvent') as typeof Event;
    globalThis.dispatchEvent(new Change('pushsubscriptionchange'));
  }, fresh);
}

/** As `givenUp`, and the worker was not told, or could not help it: a page opened from now on finds it so. */
export async function givenUpUnheard(page: Page, kept: string, fresh: object): Promise<void> {
  await keptPush(page, kept);
  await page.addInitScript((made) => {
    const subscription = { toJSON: () => made, unsubscribe: () => Promise.resolve(true) };
    let here: object | null = null;
    Object.defineProperty(Notification, 'permission', { value: 'granted' });
    Reflect.set(PushManager.prototype, 'getSubscription', () => Promise.resolve(here));
    Reflect.set(PushManager.prototype, 'subscribe', () => {
      here = subscription;
      return Promise.resolve(subscription);
    });
  }, fresh);
}
