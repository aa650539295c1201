import { computed, effect, signal } from '@preact/signals';
import { api, asked, csrf, type Schema, signedOut } from '../api/client.ts';
import { hangUp } from '../api/live.ts';
import { problemOf } from '../api/problem.ts';
import { forgetPerson, keepPerson, keptPerson } from '../offline/person.ts';
import { isReachable } from '../offline/reachable.ts';
import type { Units } from '../show/units.ts';
import { dropPush, dropPushOfOthers } from './push.ts';

export type Person = Schema<'Me'>;
export type Membership = Person['memberships'][number];
export type Role = Membership['roles'][number];

/** Undefined: not known yet; null: nobody is signed in. */
export const person = signal<Person | null | undefined>(undefined);
/** Whoever is shown was remembered by this device; the service could not be asked. */
export const isRemembered = signal(false);
/**
 * The session of whoever is shown has ended. Their page is covered, so that nothing of theirs can
 * be seen, but it stays: who signs in again as the same person finds what they typed.
 */
export const hasEnded = signal(false);

export const units = computed<Units>(
  () => person.value ?? { units: 'metric', temperature: 'celsius' },
);

/** Everything of one human ends with them: sockets, and what a page holds. */
function put(now: Person | null, remembered = false): void {
  const before = person.peek();
  // What the device kept has no proof of a session.
  const proof = now === null || now.csrf === '' ? null : now.csrf;
  const isOther = before !== undefined && before?.id !== now?.id;
  if (isOther || (csrf.peek() !== null && csrf.peek() !== proof)) hangUp();
  csrf.value = proof;
  person.value = now;
  isRemembered.value = remembered;
  hasEnded.value = false;
}

/** Reads who is signed in; throws where the service does not say. */
async function readPerson(): Promise<void> {
  const me = await asked(api.GET('/api/v1/me'));
  await keepPerson(me);
  put(me);
  // A notice that cannot be taken back now is not shown either: the worker asks whose the device is.
  await dropPushOfOthers(me.id).catch(() => undefined);
}

/** Asks who is signed in; out of reach, whoever this device remembers. */
export async function findOut(): Promise<void> {
  try {
    await readPerson();
  } catch (error) {
    // Only the service itself knows that a session is over: not whatever stands before it.
    if (problemOf(error).status === 401) await end();
    else await fallBack();
  }
}

/** The service is out of reach: whoever is shown stays, or whoever the device remembers comes. */
async function fallBack(): Promise<void> {
  if (hasEnded.peek()) return;
  const shown = person.peek();
  const kept = await keptPerson();
  put(shown ?? kept, (shown ?? kept) !== null);
}

async function end(): Promise<void> {
  await forgetPerson();
  if (person.peek()) {
    csrf.value = null;
    isRemembered.value = false;
    hasEnded.value = true;
  } else put(null);
}

/** After a session was opened in this browser: whose it is. Nothing of the one before is left. */
export async function enter(): Promise<void> {
  try {
    await readPerson();
  } catch (error) {
    // The cookie is another's already: nobody may be shown what was kept for the one before.
    await forgetPerson();
    throw error;
  }
}

/** Nobody is signed in here any more, and knows it. */
export async function leave(): Promise<void> {
  await forgetPerson();
  put(null);
}

/**
 * Ends the session here and at the service, and takes off this device what could be read of it.
 * What is not sent yet stays, under the account's own name, until the same person is back.
 */
export async function signOut(): Promise<void> {
  await asked(api.DELETE('/api/v1/sessions/current')).catch((error: unknown) => {
    // Out of reach nothing is signed out at the service: the cookie would still open everything.
    if (problemOf(error).status !== 401) throw error;
  });
  await leave();
  await dropPush().catch(() => undefined);
}

/** As `signOut`, and every other session of the account ends too. */
export async function signOutEverywhere(): Promise<void> {
  await asked(api.DELETE('/api/v1/sessions'));
  await leave();
  await dropPush().catch(() => undefined);
}

// The service says that nobody is signed in: the session ran out, or was closed elsewhere.
let isAsking = false;
effect(() => {
  if (signedOut.value === 0 || isAsking) return;
  isAsking = true;
  void findOut().finally(() => {
    isAsking = false;
  });
});

// Whoever was remembered is asked for again as soon as the service may be reached.
effect(() => {
  if (isReachable.value && isRemembered.peek()) void findOut();
});
const retryMs = 20_000;
setInterval(() => {
  if (isReachable.peek() && isRemembered.peek()) void findOut();
}, retryMs);

export const membershipIn = (yardId: string): Membership | undefined =>
  person.value?.memberships.find((one) => one.yardId === yardId);

export const hasRole = (yardId: string, ...roles: readonly Role[]): boolean =>
  membershipIn(yardId)?.roles.some((role) => roles.includes(role)) ?? false;
