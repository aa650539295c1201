import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { Deed } from './deed.ts';

/**
 * What this device keeps. `device` says who it is opened for; `readings` holds answers of the
 * service by account and name; `queue` holds what is not sent yet, by account and order.
 */
interface Kept extends DBSchema {
  device: { key: string; value: string };
  readings: { key: [accountId: string, name: string]; value: Reading };
  queue: { key: [accountId: string, order: number]; value: QueuedDeed };
}

interface Reading {
  /** When it was asked for, by the device's clock, ISO 8601. */
  readonly at: string;
  readonly data: unknown;
}

/**
 * By itself, or with others as a phone's reports. The service knows a key on each of the two apart, so
 * that what was sent one way is sent again the same way.
 */
export type Way = 'directly' | 'reports';

/** Something done while the service was out of reach, or not answered yet. */
export interface QueuedDeed {
  readonly accountId: string;
  /** Grows from deed to deed of an account. */
  readonly order: number;
  readonly yardId: string;
  /** A UUID; the same again is the same deed. */
  readonly key: string;
  /** By the device's clock, ISO 8601. */
  readonly at: string;
  readonly deed: Deed;
  /** In words, for whoever did it. */
  readonly words: string;
  /** How it was sent without an answer: it may have been carried out. Null: it never was. */
  readonly tried: Way | null;
  /** Why the service does not take it; null: it is on its way. Whoever did it decides what becomes of it. */
  readonly refused: Refused | null;
}

export interface Refused {
  readonly message: string;
  readonly cure: string;
}

let opened: Promise<IDBPDatabase<Kept>> | undefined;

/** Refused, or ended by the browser: the next who asks opens it anew. */
const forgetOpened = (): void => {
  opened = undefined;
};

export function database(): Promise<IDBPDatabase<Kept>> {
  opened ??= openDB<Kept>('curewright', 1, {
    upgrade(db) {
      db.createObjectStore('device');
      db.createObjectStore('readings');
      db.createObjectStore('queue');
    },
    terminated: forgetOpened,
  }).catch((error: unknown) => {
    forgetOpened();
    throw error;
  });
  return opened;
}

/** The account that the device is opened for; null: nobody's. */
export async function openedFor(): Promise<string | null> {
  return (await (await database()).get('device', 'account')) ?? null;
}

export async function remember(accountId: string, person: unknown): Promise<void> {
  const db = await database();
  await db.put('device', accountId, 'account');
  await keep(accountId, 'person', person);
}

export async function forget(): Promise<void> {
  await (await database()).delete('device', 'account');
}

/**
 * Keeps what was read, if the device is still opened for the account: an answer that comes after
 * signing out is not kept.
 */
export async function keep(
  accountId: string,
  name: string,
  data: unknown,
  at = new Date().toISOString(),
): Promise<void> {
  const tx = (await database()).transaction(['device', 'readings'], 'readwrite');
  if ((await tx.objectStore('device').get('account')) === accountId) {
    await tx.objectStore('readings').put({ at, data }, [accountId, name]);
  }
  await tx.done;
}

/**
 * What was kept under the name for the account, and when it was read; null: nothing. Whoever keeps
 * something under a name knows its shape: only this program writes there.
 */
export async function keptAt(
  accountId: string,
  name: string,
): Promise<{ readonly at: string; readonly data: unknown } | null> {
  const found = await (await database()).get('readings', [accountId, name]);
  return found === undefined ? null : { at: found.at, data: found.data };
}

/** Everything read for the account. Its queue stays: nothing done is lost. */
export async function dropReadings(accountId: string): Promise<void> {
  const db = await database();
  await db.delete('readings', IDBKeyRange.bound([accountId], [accountId, []]));
}
