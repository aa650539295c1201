import { once } from 'node:events';
import { setTimeout as sleep } from 'node:timers/promises';
import pg from 'pg';
import { z } from 'zod';
import { addDays } from '#calendar/local-date.ts';
import { startApi } from '../../../apps/api/src/main.ts';
import { onStage } from '../access/stage.ts';
import { quantile, type Row } from '../bench.ts';
import { signedIn, storeYard } from '../../support/crowd.ts';
import type { TestDatabase } from '../../support/database.ts';
import { startWorkerProcess } from '../../support/processes.ts';
import { asked, idOf } from './ask.ts';
import { liveYard } from './yard.ts';

const rounds = 10;
/** For the plan that is published. */
const seconds = 30;
const lookMs = 1_000;
const longestMs = 60_000;

const runSchema = z.object({ status: z.string(), planId: z.string().nullable() });
const planSchema = z.object({
  tasks: z.array(z.object({ crew: z.array(z.object({ personId: z.string() })) })),
});

async function ended(url: string, token: string): Promise<string> {
  for (;;) {
    const { status, planId } = runSchema.parse(await asked(url, token));
    if (planId !== null) return planId;
    if (status !== 'queued' && status !== 'running') throw new Error(`the plan run is ${status}`);
    await sleep(200);
  }
}

/** Somebody's days off are changed; the moment at which the service has said so. */
async function changeDaysOff(
  url: string,
  token: string,
  dates: readonly string[],
): Promise<number> {
  const authorization = `Bearer ${token}`;
  const read = await fetch(url, { headers: { authorization } });
  const changed = await fetch(url, {
    method: 'PATCH',
    headers: {
      authorization,
      'content-type': 'application/json',
      'if-match': read.headers.get('etag') ?? '',
    },
    body: JSON.stringify({ exceptions: dates.map((date) => ({ date, shifts: [] })) }),
  });
  if (changed.status !== 200) throw new Error(`${url}: ${await changed.text()}`);
  return performance.now();
}

/**
 * Until there is a candidate other than those before, ms; null: what happened moved nothing. Looks
 * when the log tells of something: to ask all the time would keep the service from its work.
 */
async function candidateAfter(
  { owner }: TestDatabase,
  log: pg.Client,
  yardId: string,
  begun: number,
  known: ReadonlySet<string>,
): Promise<number | null> {
  for (;;) {
    const signal = AbortSignal.timeout(lookMs);
    const news = once(log, 'notification', { signal }).catch(() => undefined);
    const open = await owner.candidate.findFirst({ where: { yardId, state: 'open' } });
    const now = performance.now();
    if (open !== null && !known.has(open.planId)) return now - begun;
    if (now - begun > longestMs) return null;
    await news;
  }
}

/** Nothing is searched for any more. */
async function atRest({ owner }: TestDatabase, yardId: string): Promise<void> {
  const pending = { in: ['queued' as const, 'running' as const] };
  for (;;) {
    const { count } = await owner.planRun.updateMany({
      where: { yardId, purpose: 'disturbance', status: pending },
      data: { stopRequestedAt: new Date() },
    });
    const cursor = await owner.logCursor.findUnique({ where: { yardId } });
    const last = await owner.event.aggregate({ where: { yardId }, _max: { id: true } });
    if (count === 0 && cursor?.eventId === last._max.id) return;
    await sleep(100);
  }
}

/**
 * From the answer to a change of somebody's days off, with the whole service at work as processes of
 * their own, to the candidate plan that the foreman can read.
 */
export function replan(tasks: number): Promise<Row> {
  return onStage(async (stage) => {
    const database = await stage.database('replan');
    const yard = liveYard(tasks);
    const { id: yardId } = yard;
    await storeYard(database, yard);
    const foreman = yard.people.find(({ roles }) => roles.includes('foreman'));
    if (foreman === undefined) throw new Error('a generated yard has a foreman');
    const [{ token }] = await signedIn(database, yardId, [foreman.id]);
    const api = await startApi({ databaseUrl: database.serviceUrl, port: 0 });
    const worker = await startWorkerProcess(database.serviceUrl);
    const log = new pg.Client(database.serviceUrl);
    await log.connect();
    await log.query('LISTEN curewright_event');
    const base = `${api.url}/api/v1/yards/${yardId}`;
    try {
      const run = idOf(await asked(`${base}/plan-runs`, token, { seconds }));
      const planId = await ended(`${base}/plan-runs/${run}`, token);
      await asked(`${base}/plans/${planId}/publish`, token, {});
      const plan = planSchema.parse(await asked(`${base}/plans/${planId}`, token));
      const busy = [...new Set(plan.tasks.flatMap(({ crew }) => crew.map((one) => one.personId)))];
      const today = new Date().toISOString().slice(0, 10);
      const times: number[] = [];
      const known = new Set<string>();
      for (let round = 0; round < rounds; round += 1) {
        await atRest(database, yardId);
        const url = `${base}/people/${busy[round % busy.length]}`;
        const off = round < busy.length ? [1, 2, 3].map((day) => addDays(today, day)) : [];
        const begun = await changeDaysOff(url, token, off);
        const ms = await candidateAfter(database, log, yardId, begun, known);
        if (ms !== null) times.push(ms);
        const all = await database.owner.candidate.findMany({ where: { yardId } });
        for (const one of all) known.add(one.planId);
      }
      await atRest(database, yardId);
      return {
        tasks: plan.tasks.length,
        candidates: times.length,
        medianMs: quantile(times, 0.5),
        worstMs: Math.max(...times),
      };
    } finally {
      await log.end();
      await worker.end('SIGTERM');
      await api.close();
    }
  });
}
