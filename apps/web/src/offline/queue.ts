import { computed, effect, signal } from '@preact/signals';
import { person } from '../session/session.ts';
import type { Deed } from './deed.ts';
import { database, type QueuedDeed, type Way } from './store.ts';

/** Deeds of whoever is signed in that the service does not have, in order. */
export const queue = signal<readonly QueuedDeed[]>([]);

/** Those that are on their way, as opposed to what the service does not take. */
export const unsent = computed(() => queue.value.filter(({ refused }) => refused === null));

/** Keys of deeds that came to nothing since this page was opened: held, not taken, or not sent after all. */
export const fallen = signal<ReadonlySet<string>>(new Set());

/** Other tabs of this browser hold the same queue; what comes is the key of a deed that has fallen, or null. */
const channel = new BroadcastChannel('curewright-queue');
channel.addEventListener('message', ({ data }: MessageEvent<string | null>) => {
  if (data !== null) fallen.value = new Set([...fallen.peek(), data]);
  void look();
});

/** The queue as the device has it. */
async function look(): Promise<void> {
  const accountId = person.peek()?.id;
  const found = accountId === undefined ? [] : await deedsOf(accountId);
  if (person.peek()?.id === accountId) queue.value = found;
}

effect(() => {
  if (person.value?.id === undefined) queue.value = [];
  else void look();
});

export async function deedsOf(accountId: string): Promise<readonly QueuedDeed[]> {
  const db = await database();
  return db.getAll('queue', IDBKeyRange.bound([accountId], [accountId, []]));
}

/**
 * Puts a deed at the end of its account's queue; from then on it survives whatever becomes of the page.
 * Null: the device is opened for somebody else by now, another page of this browser knows, and nothing
 * is written under their eyes or in their name.
 */
export async function addDeed(
  whose: Pick<QueuedDeed, 'accountId' | 'yardId' | 'key'>,
  deed: Deed,
  words: string,
): Promise<QueuedDeed | null> {
  const { accountId } = whose;
  const tx = (await database()).transaction(['device', 'queue'], 'readwrite');
  if ((await tx.objectStore('device').get('account')) !== accountId) {
    await tx.done;
    return null;
  }
  const deeds = tx.objectStore('queue');
  const last = await deeds.openCursor(IDBKeyRange.bound([accountId], [accountId, []]), 'prev');
  const made: QueuedDeed = {
    ...whose,
    order: (last?.value.order ?? 0) + 1,
    at: new Date().toISOString(),
    deed,
    words,
    tried: null,
    refused: null,
  };
  await deeds.put(made, [accountId, made.order]);
  await tx.done;
  // It is kept, whether it can be shown or not.
  await tell().catch(() => undefined);
  return made;
}

/** Writes down how far a deed has come. */
export async function changeDeed(
  before: QueuedDeed,
  change: Partial<Pick<QueuedDeed, 'deed' | 'refused'>>,
): Promise<QueuedDeed> {
  const after = { ...before, ...change };
  await putDeeds([after]);
  return after;
}

/** Writes down that deeds are being sent, and how, before the first byte leaves. */
export async function tryDeeds(
  before: readonly QueuedDeed[],
  tried: Way,
): Promise<readonly QueuedDeed[]> {
  const after = before.map((one) => ({ ...one, tried }));
  await putDeeds(after);
  return after;
}

/**
 * Deeds as they are to stand in the queue, all or none. One that has left it stays away: without turns
 * another page may have been quicker, and what has its place since is another deed.
 */
export async function putDeeds(deeds: readonly QueuedDeed[]): Promise<void> {
  const tx = (await database()).transaction('queue', 'readwrite');
  for (const deed of deeds) {
    const place: [string, number] = [deed.accountId, deed.order];
    if ((await tx.store.get(place))?.key === deed.key) await tx.store.put(deed, place);
  }
  await tx.done;
  await tell();
}

/** As `putDeeds`, of a deed that has left the queue already nothing is taken away. */
export async function dropDeed({ accountId, order, key }: QueuedDeed): Promise<void> {
  const tx = (await database()).transaction('queue', 'readwrite');
  if ((await tx.store.get([accountId, order]))?.key === key) {
    await tx.store.delete([accountId, order]);
  }
  await tx.done;
  await tell();
}

/** Says so in all pages: nothing is left of it to be taken back. */
export function fell({ key }: QueuedDeed): void {
  fallen.value = new Set([...fallen.peek(), key]);
  channel.postMessage(key);
}

async function tell(): Promise<void> {
  await look();
  channel.postMessage(null);
}
