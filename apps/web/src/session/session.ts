import { computed, effect, signal } from '@preact/signals';
import { api, asked, csrf, type Schema, signedOut } from '../api/client.ts';
import { hangUp } from '../api/live.ts';
import { problemOf } from '../api/problem.ts';
import { forgetPerson, keepPerson, keptPerson } from '../offline/person.ts';
import { isReachable } from '../offline/reachable.ts';
import type { Units } from '../show/units.ts';
import { closeNoticesOfOthers } from './notices.ts';
import { dropPush, dropPushOfOthers, renewPush } from './push.ts';

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

/** Other pages of this browser have the same cookie: what is heard is that somebody signed in or out. */
const pages = new BroadcastChannel('curewright-person');
pages.addEventListener('message', () => void findOut());
const tellPages = (): void => {
  pages.postMessage(null);
};

/** Everything of one human ends with them: sockets, notices, and what a page holds. */
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
  if (before?.id === now?.id) return;
  // Of no harm where it cannot be done: what is pressed leads to the page of whoever is signed in.
  closeNoticesOfOthers(now?.id).catch(() => undefined);
  // The others ask the service themselves: told anew by them, it is no news here.
  if (before !== undefined) tellPages();
}

/** Reads who is signed in; throws where the service does not say. */
async function readPerson(): Promise<void> {
  const me = await asked(api.GET('/api/v1/me'));
  await keepPerson(me);
  put(me);
  // A notice that cannot be taken back now is not shown either: the worker asks whose the device is.
  await dropPushOfOthers(me.id).catch(() => undefined);
  // Not waited for: where it fails it is tried at the next asking.
  void renewPush(me.id).catch(() => undefined);
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

/** The service is out of reach: whoever the device remembers is shown, as they were read last. */
async function fallBack(): Promise<void> {
  if (hasEnded.peek()) return;
  const shown = person.peek();
  const kept = await keptPerson();
  // Another page of this browser was told, and the device is opened for nobody, or somebody else.
  if (shown && kept === null) await end();
  else put(shown?.id === kept?.id ? (shown ?? null) : kept, kept !== null);
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
    // The same person by another session: the proofs of other pages are worth nothing any more.
    tellPages();
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

// The service says that nobody is signed in, or by another session: it ran out, was closed elsewhere,
// or somebody signed in by a page that this one does not hear.
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
