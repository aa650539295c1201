import { api, asked } from '../api/client.ts';
import { type Problem, problemOf } from '../api/problem.ts';
import { asWhom } from './as-whom.ts';
import { sendDirectly } from './direct.ts';
import { done, isAwaited, settled } from './outcome.ts';
import { changeDeed, deedsOf, dropDeed, putDeeds, tryDeeds } from './queue.ts';
import { sendSnag } from './snag.ts';
import type { QueuedDeed, Way } from './store.ts';
import { runOf, wayOf } from './way.ts';

/** Sends the first of what waits, with those that go along with it. Throws a `Problem` that says nothing of it. */
export async function sendFirst(open: readonly QueuedDeed[]): Promise<void> {
  const [first] = open;
  const { deed } = first;
  if (deed.kind === 'snag') await finished(first, (sent) => sendSnag(sent, deed));
  else if (deed.kind === 'noted') await finished(first, () => note(first.yardId, deed.alarmId));
  else if (wayOf(first, isAwaited(first)) === 'directly') await sendOne(first);
  else await sendReports(runOf(open, isAwaited));
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
  await asked(
    api.POST('/api/v1/yards/{yardId}/alarms/{id}/acknowledge', {
      params: { path },
      headers: asWhom(),
    }),
  );
}

/**
 * Sends what the service takes or refuses. Refused, it goes back to whoever waits for the answer, or
 * stays on the device until they look; so does a snag that is there with photos that are not.
 */
async function finished(
  fresh: QueuedDeed,
  send: (queued: QueuedDeed) => Promise<void>,
): Promise<void> {
  const [queued] = await tryDeeds([fresh], 'directly');
  try {
    await send(queued);
  } catch (error) {
    const problem = problemOf(error);
    if (isPassing(problem)) throw problem;
    const now = (await deedsOf(queued.accountId)).find(({ key }) => key === queued.key) ?? queued;
    const isBegun = now.deed.kind === 'snag' && now.deed.snagId !== null;
    if (isAwaited(queued) && !isBegun) await dropDeed(now);
    else await changeDeed(now, { refused: refusalOf(problem) });
    settled(queued, { how: 'refused', problem });
    return;
  }
  await done(queued, null);
}

/**
 * Sends a report by itself. Refused while whoever did it waits for the answer, it has not happened.
 * Was it sent before without an answer, it has been taken for done since: this answer says that it was
 * not, and from then on it goes the way of what is reported later, so that the foreman hears of it.
 */
async function sendOne(queued: QueuedDeed): Promise<void> {
  let claimId: string | null;
  try {
    claimId = await trying([queued], 'directly', ([one]) => sendDirectly(one));
  } catch (error) {
    const problem = problemOf(error);
    if (isPassing(problem)) throw problem;
    if (queued.tried !== null) return sendReports([queued]);
    await dropDeed(queued);
    settled(queued, { how: 'refused', problem });
    return undefined;
  }
  await done(queued, claimId);
  return undefined;
}

/** Turned away at the door, nothing of what was sent has been done. */
const isAtDoor = ({ status }: Problem): boolean =>
  status === 401 || status === 403 || status === 404;

/** Sends reports one way, which is written down before: should no answer come, they may have been done. */
async function trying<T>(
  fresh: readonly QueuedDeed[],
  way: Way,
  sent: (deeds: readonly QueuedDeed[]) => Promise<T>,
): Promise<T> {
  const deeds = await tryDeeds(fresh, way);
  try {
    return await sent(deeds);
  } catch (error) {
    if (isAtDoor(problemOf(error))) await putDeeds(fresh);
    throw error;
  }
}

/** As a phone's queue: each report is carried out, held for the foreman, or refused by itself. */
async function sendReports(run: readonly QueuedDeed[]): Promise<void> {
  const [{ yardId }] = run;
  const reports = run.flatMap(({ key, at, deed }) =>
    deed.kind === 'report' ? [{ key, at, command: deed.command }] : [],
  );
  const { items } = await trying(run, 'reports', () =>
    asked(
      api.POST('/api/v1/yards/{yardId}/reports', {
        params: { path: { yardId } },
        body: { sentAt: new Date().toISOString(), reports },
        headers: asWhom(),
        signal: AbortSignal.timeout(60_000),
      }),
    ),
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
