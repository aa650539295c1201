import { signal } from '@preact/signals';
import { api, asked, type Schema } from '../api/client.ts';
import { isLive } from '../api/live.ts';
import { type Problem, problemOf } from '../api/problem.ts';
import { findOut, isRemembered, person } from '../session/session.ts';
import { canGoDirectly, sendDirectly } from './direct.ts';
import type { Deed } from './deed.ts';
import { forgetOthers, lookUpDone, rememberDone } from './lately.ts';
import { addDeed, changeDeed, deedsOf, dropDeed, fell, unsent } from './queue.ts';
import { heardFrom, isReachable } from './reachable.ts';
import { sendSnag } from './snag.ts';
import type { QueuedDeed } from './store.ts';

/** What became of a deed. `kept`: it waits on this device, and is sent later. */
export type Outcome =
  | { readonly how: 'done'; readonly claimId: string | null }
  | { readonly how: 'kept' }
  | { readonly how: 'refused'; readonly problem: Problem }
  | { readonly how: 'held'; readonly reasons: Schema<'TakenReport'>['reasons'] };

/** Keys of what is being sent for the first time, while whoever did it looks on. */
export const fresh = signal<ReadonlySet<string>>(new Set());

/** Why nothing is sent though the service answers: nobody is signed in, or access has ended. */
export const stopped = signal<Problem | undefined>(undefined);

/** Of this page: who waits for an answer. A deed whose page waits may simply be refused. */
const waiting = new Map<string, (outcome: Outcome) => void>();

async function done(queued: QueuedDeed, claimId: string | null): Promise<void> {
  await rememberDone(queued, claimId);
  await dropDeed(queued);
  settled(queued, { how: 'done', claimId });
}

const settled = (queued: QueuedDeed, outcome: Outcome): void => {
  if (outcome.how === 'refused' || outcome.how === 'held') fell(queued);
  waiting.get(queued.key)?.(outcome);
  waiting.delete(queued.key);
};

/**
 * Does something in the yard: it is written down on this device first, then sent. Whatever happens
 * to page, device or line meanwhile, it is done once, at the moment at which it was.
 */
export async function act(
  { yardId, key }: Pick<QueuedDeed, 'yardId' | 'key'>,
  deed: Deed,
  words: string,
): Promise<Outcome> {
  const accountId = person.peek()?.id;
  if (accountId === undefined) return { how: 'kept' };
  fresh.value = new Set([...fresh.peek(), key]);
  try {
    await addDeed({ accountId, yardId, key }, deed, words);
  } catch (error) {
    settledFresh(key);
    throw error;
  }
  return new Promise((resolve) => {
    waiting.set(key, resolve);
    // Not reached, or another page of this browser was quicker with it.
    const end = (): void => {
      waiting.delete(key);
      settledFresh(key);
      const isKept = unsent.peek().some((one) => one.key === key);
      resolve(isKept ? { how: 'kept' } : { how: 'done', claimId: null });
    };
    void send().then(end, end);
  });
}

function settledFresh(key: string): void {
  fresh.value = new Set([...fresh.peek()].filter((one) => one !== key));
}

/** Of several pages one sends at a time. */
const lock = 'curewright-sending';

let again: ReturnType<typeof setTimeout> | undefined;
let pause = 0;
const [shortestMs, longestMs] = [4_000, 60_000];

/** Sends what waits, in order, as far as it can be sent. */
export function send(): Promise<void> {
  return navigator.locks.request(lock, async () => {
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
    if (!(await sendFirst(open))) return false;
  }
}

/** False: it cannot go on now. */
async function sendFirst(open: readonly QueuedDeed[]): Promise<boolean> {
  const [first] = open;
  try {
    const { deed } = first;
    if (deed.kind === 'snag') await finished(first, () => sendSnag(first, deed));
    else if (deed.kind === 'noted') await finished(first, () => note(first.yardId, deed.alarmId));
    else if (canGoDirectly(first) && (waiting.has(first.key) || first.isTried)) {
      await sendOne(first);
    } else await sendReports(runOf(open));
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

const ofSession: ReadonlySet<string> = new Set(['access.forged', 'access.second-factor']);

/** Refusals that say nothing of the deed: the line, the session, the service itself. */
const isPassing = ({ status, code }: Problem): boolean =>
  status === 0 ||
  status === 401 ||
  status === 408 ||
  status === 429 ||
  status >= 500 ||
  ofSession.has(code);

async function note(yardId: string, id: string): Promise<void> {
  const path = { yardId, id };
  await asked(api.POST('/api/v1/yards/{yardId}/alarms/{id}/acknowledge', { params: { path } }));
}

/**
 * Sends what the service takes or refuses. Refused, it goes back to whoever waits for the answer, or
 * stays on the device until they look; so does a snag that is there with photos that are not.
 */
async function finished(queued: QueuedDeed, sent: () => Promise<void>): Promise<void> {
  try {
    await sent();
  } catch (error) {
    const problem = problemOf(error);
    if (isPassing(problem)) throw problem;
    const now = (await deedsOf(queued.accountId)).find(({ key }) => key === queued.key) ?? queued;
    const isBegun = now.deed.kind === 'snag' && now.deed.snagId !== null;
    if (waiting.has(queued.key) && !isBegun) await dropDeed(now);
    else await changeDeed(now, { refused: refusalOf(problem) });
    settled(queued, { how: 'refused', problem });
    return;
  }
  await done(queued, null);
}

/**
 * Sends a report by itself. Refused while whoever did it waits for the answer, it has not happened.
 * Was it sent before without an answer, it has been taken for done since: then it goes the way of
 * what is reported later, and the foreman hears of it.
 */
async function sendOne(queued: QueuedDeed): Promise<void> {
  const wasTried = queued.isTried;
  const tried = wasTried ? queued : await changeDeed(queued, { isTried: true });
  let claimId: string | null;
  try {
    claimId = await sendDirectly(tried);
  } catch (error) {
    const problem = problemOf(error);
    if (isPassing(problem)) throw problem;
    if (wasTried) return sendReports([tried]);
    await dropDeed(tried);
    settled(tried, { how: 'refused', problem });
    return undefined;
  }
  await done(tried, claimId);
  return undefined;
}

/** What one request carries. */
const mostReports = 100;

/** Reports of one yard from the first on, up to what is something else or goes by itself. */
function runOf(open: readonly QueuedDeed[]): readonly QueuedDeed[] {
  const [{ yardId }] = open;
  const end = open.findIndex(
    (one, k) =>
      one.deed.kind !== 'report' ||
      one.yardId !== yardId ||
      (k > 0 && (one.isTried || waiting.has(one.key))),
  );
  return open.slice(0, Math.min(end < 0 ? open.length : end, mostReports));
}

/** As a phone's queue: each report is carried out, held for the foreman, or refused by itself. */
async function sendReports(run: readonly QueuedDeed[]): Promise<void> {
  const [{ yardId }] = run;
  const reports = run.flatMap(({ key, at, deed }) =>
    deed.kind === 'report' ? [{ key, at, command: deed.command }] : [],
  );
  const { items } = await asked(
    api.POST('/api/v1/yards/{yardId}/reports', {
      params: { path: { yardId } },
      body: { sentAt: new Date().toISOString(), reports },
      signal: AbortSignal.timeout(60_000),
    }),
  );
  for (const [k, { outcome, reasons, report }] of items.entries()) {
    const queued = run[k];
    if (outcome === 'refused') {
      const message = reasons.map((reason) => reason.message).join(' ');
      const cure = reasons.map((reason) => reason.cure).join(' ');
      await changeDeed(queued, { refused: { message, cure } });
    } else if (outcome === 'done') {
      await done(queued, report?.claim?.id ?? null);
      continue;
    } else await dropDeed(queued);
    settled(queued, { how: 'held', reasons });
  }
}

const refusalOf = ({ message, cure, faults }: Problem): QueuedDeed['refused'] => ({
  message: [message, ...faults.map((fault) => fault.message)].join(' '),
  cure: [cure, ...faults.map((fault) => fault.cure)].join(' '),
});

/** Takes back what is not sent; false: it is on its way, and has to be taken back as anything done. */
export function withdraw(queued: QueuedDeed): Promise<boolean> {
  return navigator.locks.request(lock, async () => {
    const now = (await deedsOf(queued.accountId)).find(({ key }) => key === queued.key);
    if (now === undefined || now.isTried) return false;
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
