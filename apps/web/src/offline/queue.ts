import { computed, effect, signal } from '@preact/signals';
import { person } from '../session/session.ts';
import type { Deed } from './deed.ts';
import { database, type QueuedDeed } from './store.ts';

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

/** Puts a deed at the end of its account's queue; from then on it survives whatever becomes of the page. */
export async function addDeed(
  whose: Pick<QueuedDeed, 'accountId' | 'yardId' | 'key'>,
  deed: Deed,
  words: string,
): Promise<QueuedDeed> {
  const { accountId } = whose;
  const tx = (await database()).transaction('queue', 'readwrite');
  const last = await tx.store.openCursor(IDBKeyRange.bound([accountId], [accountId, []]), 'prev');
  const made: QueuedDeed = {
    ...whose,
    order: (last?.value.order ?? 0) + 1,
    at: new Date().toISOString(),
    deed,
    words,
    isTried: false,
    refused: null,
  };
  await tx.store.put(made, [accountId, made.order]);
  await tx.done;
  await tell();
  return made;
}

/** Writes down how far a deed has come. */
export async function changeDeed(
  before: QueuedDeed,
  change: Partial<Pick<QueuedDeed, 'deed' | 'isTried' | 'refused'>>,
): Promise<QueuedDeed> {
  const after = { ...before, ...change };
  await (await database()).put('queue', after, [before.accountId, before.order]);
  await tell();
  return after;
}

export async function dropDeed({ accountId, order }: QueuedDeed): Promise<void> {
  await (await database()).delete('queue', [accountId, order]);
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
