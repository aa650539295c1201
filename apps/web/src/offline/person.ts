import type { Schema } from '../api/client.ts';
import { keptAt, dropReadings, remember, forget, openedFor } from './store.ts';

type Person = Schema<'Me'>;

/**
 * Whose device this is at present. What was read for somebody is kept under their account and is
 * opened for nobody else; signing out or another's signing in erases it.
 */
export async function keepPerson(me: Person): Promise<void> {
  const before = await openedFor();
  if (before !== null && before !== me.id) await dropReadings(before);
  // Its proof against forgery belongs to a session, not to the device.
  await remember(me.id, { ...me, csrf: '' });
}

export async function keptPerson(): Promise<Person | null> {
  const accountId = await openedFor();
  const read = accountId === null ? null : await keptAt(accountId, 'person');
  return read === null ? null : (read.data as Person);
}

export async function forgetPerson(): Promise<void> {
  const accountId = await openedFor();
  if (accountId !== null) await dropReadings(accountId);
  await forget();
}
