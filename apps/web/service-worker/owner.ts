/** Whoever this device is opened for, as the pages remember it (`src/offline/store.ts`). */
export interface Owner {
  readonly accountId: string;
  readonly rolesIn: (yardId: string) => readonly string[];
}

/** Null: nobody, or never anybody. */
export async function openedFor(): Promise<Owner | null> {
  const db = await open();
  if (db === null) return null;
  try {
    const accountId = await read(db, 'device', 'account');
    if (typeof accountId !== 'string') return null;
    const person = await read(db, 'readings', [accountId, 'person']);
    return { accountId, rolesIn: (yardId) => rolesIn(person, yardId) };
  } finally {
    db.close();
  }
}

const push = 'push';

/** Under which id the service knows this browser's subscription for the account (`src/session/push.ts`); null: none. */
export async function pushOf(accountId: string): Promise<string | null> {
  const db = await open();
  if (db === null) return null;
  try {
    const kept = await read(db, 'device', push);
    const [whose, id] = typeof kept === 'string' ? kept.split(' ') : [];
    return whose === accountId ? id : null;
  } finally {
    db.close();
  }
}

export async function keepPush(accountId: string, id: string): Promise<void> {
  const db = await open();
  if (db === null) return;
  try {
    const writing = db.transaction('device', 'readwrite');
    writing.objectStore('device').put(`${accountId} ${id}`, push);
    await new Promise((resolve, reject) => {
      writing.oncomplete = resolve;
      writing.onabort = () => reject(writing.error ?? new Error('device cannot be written'));
    });
  } finally {
    db.close();
  }
}

/** The pages make the database: where it is not there, none is left behind. */
function open(): Promise<IDBDatabase | null> {
  return new Promise((resolve) => {
    const opening = indexedDB.open('curewright');
    opening.onupgradeneeded = () => opening.transaction?.abort();
    opening.onsuccess = () => resolve(opening.result);
    opening.onerror = () => resolve(null);
  });
}

function read(db: IDBDatabase, store: string, key: IDBValidKey): Promise<unknown> {
  if (!db.objectStoreNames.contains(store)) return Promise.resolve(undefined);
  return new Promise((resolve, reject) => {
    const asking: IDBRequest<unknown> = db.transaction(store).objectStore(store).get(key);
    asking.onsuccess = () => resolve(asking.result);
    asking.onerror = () => reject(asking.error ?? new Error(`${store} cannot be read`));
  });
}

interface Kept {
  readonly data: {
    readonly memberships: readonly { readonly yardId: string; readonly roles: readonly string[] }[];
  };
}

const isKept = (person: unknown): person is Kept =>
  typeof person === 'object' && person !== null && 'data' in person;

function rolesIn(person: unknown, yardId: string): readonly string[] {
  if (!isKept(person)) return [];
  return person.data.memberships.find((one) => one.yardId === yardId)?.roles ?? [];
}
