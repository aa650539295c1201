import { signal } from '@preact/signals';
import { csrf } from '../api/client.ts';
import { isLive } from '../api/live.ts';
import { Problem, problemOf } from '../api/problem.ts';
import { findOut, isRemembered, person } from '../session/session.ts';
import { offline as texts } from '../texts/offline.ts';
import { sendAs } from './as-whom.ts';
import type { Deed } from './deed.ts';
import { inTurn } from './in-turn.ts';
import { forgetOthers, lookUpDone } from './lately.ts';
import { awaitNoMore, awaitOutcome, isAwaited, type Outcome, setFresh } from './outcome.ts';
import { addDeed, changeDeed, deedsOf, dropDeed, fallen, fell } from './queue.ts';
import { heardFrom, isReachable } from './reachable.ts';
import { sendFirst } from './sending.ts';
import type { QueuedDeed } from './store.ts';

/** Why nothing is sent though the service answers: nobody is signed in, or access has ended. */
export const stopped = signal<Problem | undefined>(undefined);

/**
 * Does something in the yard: it is written down on this device first, then sent. Whatever happens
 * to page, device or line meanwhile, it is done once, at the moment at which it was.
 */
export async function act(
  whose: Pick<QueuedDeed, 'accountId' | 'yardId' | 'key'>,
  deed: Deed,
  words: string,
): Promise<Outcome> {
  const { accountId, key } = whose;
  // Two deeds of one press: whoever the page was of may have made way between them.
  if (person.peek()?.id !== accountId) return notYours();
  setFresh(key, true);
  const waitNoMore = (): void => {
    awaitNoMore(key);
    setFresh(key, false);
  };
  // Before it is written down: what is being sent meanwhile may come to it at once.
  const outcome = new Promise<Outcome>((resolve) => {
    awaitOutcome(key, resolve);
  });
  try {
    if ((await addDeed(whose, deed, words)) === null) {
      waitNoMore();
      // Whose the page is is found out in a moment; it changes under whoever pressed.
      void findOut();
      return notYours();
    }
  } catch (error) {
    waitNoMore();
    return notKept(error);
  }
  // Not reached, or another page of this browser was quicker with it.
  const left = send()
    .catch(() => undefined)
    .then((): Promise<Outcome> => {
      const isAnswered = !isAwaited(whose);
      waitNoMore();
      return isAnswered ? outcome : becameOf(accountId, key);
    });
  return Promise.race([outcome, left]);
}

const notYours = (): Outcome => {
  const words = { code: 'not-yours', title: texts.notYours, detail: texts.notYours };
  return { how: 'refused', problem: new Problem(409, { ...words, cure: texts.notYoursCure }) };
};

/** The browser keeps nothing for this page: nothing was sent either. */
const notKept = (error: unknown): Outcome => {
  const title = texts.notKept(String(error));
  const words = { code: 'not-kept', title, detail: title };
  return { how: 'refused', problem: new Problem(507, { ...words, cure: texts.notKeptCure }) };
};

/** Pages hear each other within this; no source. */
const heardMs = 200;

/** What became of a deed for which no answer came to this page: it waits, or another page sent it. */
async function becameOf(accountId: string, key: string): Promise<Outcome> {
  const deeds = await deedsOf(accountId).catch(() => null);
  // The device cannot be looked at: the deed was put there before.
  if (deeds === null) return { how: 'kept' };
  const found = deeds.find((one) => one.key === key);
  if (found !== undefined) {
    if (found.refused === null) return { how: 'kept' };
    const { message, cure } = found.refused;
    const problem = new Problem(409, { code: 'refused', title: message, detail: message, cure });
    return { how: 'refused', problem };
  }
  if (!fallen.peek().has(key)) await new Promise((heard) => setTimeout(heard, heardMs));
  // The reasons stand with what is held, as the service has it.
  return fallen.peek().has(key) ? { how: 'held', reasons: [] } : { how: 'done', claimId: null };
}

/** Of several pages one sends at a time. */
const lock = 'curewright-sending';

let again: ReturnType<typeof setTimeout> | undefined;
let pause = 0;
const [shortestMs, longestMs] = [4_000, 60_000];

/** Sends what waits, in order, as far as it can be sent. */
export function send(): Promise<void> {
  return inTurn(lock, async () => {
    const isEmpty = await sendAll();
    pause = isEmpty ? 0 : Math.min(longestMs, Math.max(shortestMs, pause * 2));
    clearTimeout(again);
    if (pause > 0 && stopped.peek() === undefined) again = setTimeout(() => void send(), pause);
  });
}

/** The service was out of reach since it last said who is signed in here. */
let wasAway = false;

/** True: nothing is left. */
async function sendAll(): Promise<boolean> {
  const accountId = person.peek()?.id;
  if (accountId === undefined) return true;
  for (;;) {
    const open = (await deedsOf(accountId)).filter(({ refused }) => refused === null);
    if (open.length === 0) {
      stopped.value = undefined;
      return true;
    }
    if (!navigator.onLine) return false;
    // Who is signed in was read from this device, or may have changed meanwhile: ask first.
    if (isRemembered.peek() || wasAway) await findOut();
    if (isRemembered.peek() || person.peek()?.id !== accountId) return false;
    wasAway = false;
    sendAs(csrf.peek());
    if (!(await goOn(open))) return false;
  }
}

/** False: it cannot go on now. */
async function goOn(open: readonly QueuedDeed[]): Promise<boolean> {
  try {
    await sendFirst(open);
    heardFrom(true);
    stopped.value = undefined;
    return true;
  } catch (error) {
    const problem = problemOf(error);
    if (problem.isUnreachable) heardFrom(false);
    else if (problem.status < 500) stopped.value = problem;
    return false;
  }
}

/** Takes back what is not sent; false: it is on its way, and has to be taken back as anything done. */
export function withdraw(queued: QueuedDeed): Promise<boolean> {
  return inTurn(lock, async () => {
    const now = (await deedsOf(queued.accountId)).find(({ key }) => key === queued.key);
    if (now === undefined || now.tried !== null) return false;
    await dropDeed(now);
    fell(now);
    return true;
  });
}

/** What the service did not take: it is sent once more, or whoever did it lets it go. */
export async function settleRefused(queued: QueuedDeed, as: 'again' | 'dropped'): Promise<void> {
  if (as === 'dropped') {
    await dropDeed(queued);
    return;
  }
  await changeDeed(queued, { refused: null });
  await send();
}

let hasBegun = false;

/** From now on what waits is sent whenever there is a chance of it. */
export function beginSending(): void {
  if (hasBegun) return;
  hasBegun = true;
  const soon = (): void => {
    stopped.value = undefined;
    // A fresh chance: what failed before says nothing of it.
    pause = 0;
    void send();
  };
  person.subscribe((now) => {
    forgetOthers(now?.id);
    if (now === null || now === undefined) return;
    void lookUpDone(now.id).catch(() => undefined);
    soon();
  });
  isReachable.subscribe((reachable) => {
    if (reachable) void send();
    else wasAway = true;
  });
  isLive.subscribe((live) => {
    if (live) soon();
  });
  addEventListener('online', soon);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') soon();
  });
}
