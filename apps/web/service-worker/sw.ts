import { answer, dropOldFiles, keepFirstFiles } from './files.ts';
import { open, show } from './notices.ts';
import { renew } from './renew.ts';

/**
 * Makes the screens open without a network, and shows what is pushed. A new version takes over at
 * once: pages that are open hold the files of theirs by name, and the next one is of the new.
 */
declare const self: ServiceWorkerGlobalScope;

self.addEventListener('install', (event) => {
  event.waitUntil(keepFirstFiles().then(() => self.skipWaiting()));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    Promise.all([
      dropOldFiles(),
      self.registration.navigationPreload.enable(),
      self.clients.claim(),
    ]),
  );
});

self.addEventListener('fetch', answer);

self.addEventListener('push', (event) => {
  event.waitUntil(show(readJson(event.data)));
});

// Browsers name it, and its type is not in the libraries of all.
self.addEventListener('pushsubscriptionchange', (event) => {
  // A page that finds no address asks for one too (`src/session/push.ts`): one after the other.
  (event as ExtendableEvent).waitUntil(navigator.locks.request('curewright-push', renew));
});

self.addEventListener('notificationclick', (event) => {
  event.waitUntil(open(event.notification));
});

function readJson(data: PushMessageData | null): unknown {
  try {
    return data?.json();
  } catch {
    return undefined;
  }
}
