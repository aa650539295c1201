import { openedFor } from './owner.ts';

declare const self: ServiceWorkerGlobalScope;

/** What the worker of the service sends (`apps/worker/src/alarms/push.ts`). */
interface Told {
  readonly tag: string;
  readonly accountId: string;
  readonly yardId: string;
  readonly title: string;
  readonly body: string;
}

const names = ['tag', 'accountId', 'yardId', 'title', 'body'] as const;

function isTold(data: unknown): data is Told {
  if (typeof data !== 'object' || data === null) return false;
  return names.every((name) => typeof Reflect.get(data, name) === 'string');
}

/**
 * Shows it, if it is for whoever the device is opened for: on a shared telephone it may come when
 * somebody else has it in the hand. It shows once, however often it comes.
 */
export async function show(data: unknown): Promise<void> {
  if (!isTold(data)) return;
  const { tag, accountId, yardId, title, body } = data;
  const owner = await openedFor();
  if (owner?.accountId !== accountId) return;
  await self.registration.showNotification(title, {
    tag,
    body,
    data: { accountId, yardId },
    icon: '/icon-192.png',
    badge: '/badge-96.png',
  });
}

/** What was pressed leads to a page of its own: in none that is open may something typed be lost. */
export async function open(notification: Notification): Promise<void> {
  notification.close();
  const data: unknown = notification.data;
  const yardId: unknown = typeof data === 'object' && data !== null && Reflect.get(data, 'yardId');
  if (typeof yardId !== 'string') return;
  const address = new URL(await pathIn(yardId), self.location.origin).href;
  const windows = await self.clients.matchAll({ type: 'window', includeUncontrolled: true });
  const there = windows.find(({ url }) => url === address);
  await (there === undefined ? self.clients.openWindow(address) : there.focus());
}

async function pathIn(yardId: string): Promise<string> {
  const roles = (await openedFor())?.rolesIn(yardId) ?? [];
  const page = roles.includes('builder') || !roles.includes('foreman') ? 'now' : 'desk';
  return `/yards/${encodeURIComponent(yardId)}/${page}`;
}
