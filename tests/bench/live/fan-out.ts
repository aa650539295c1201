import { get, type IncomingMessage } from 'node:http';
import { setTimeout as sleep } from 'node:timers/promises';
import pg from 'pg';
import { z } from 'zod';
import { yardSchema, type Yard } from '#planning/yard/yard.ts';
import { crowdedYard, type Hand, signedIn, storeYard } from '../../support/crowd.ts';
import type { TestDatabase } from '../../support/database.ts';
import { planted } from '../../support/planted.ts';
import { type Process, startApiProcess, startWorkerProcess } from '../../support/processes.ts';
import { until } from '../../support/until.ts';
import { onStage } from '../access/stage.ts';
import { quantile, type Row } from '../bench.ts';
import { asked, idOf } from './ask.ts';

const subscribers = 500;
/** An address may keep so many streams open. */
const anAddress = 100;
const busyHands = 12;
const freePieces = 50;
const opening = 40;
const yardId = 'crowd';
const minuteMs = 60_000;

/** Pieces of two steps, the second of which may begin an hour after the first. */
function crowd(): Yard {
  const yard = crowdedYard(yardId, 200, freePieces + opening);
  const [procedure] = yard.procedures;
  const [step] = procedure.steps;
  const steps = [step, { ...step, id: 'second', name: 'Second' }];
  const link = { id: 'an-hour', from: step.id, to: 'second' };
  const links = [{ ...link, opens: { kind: 'after', minutes: 60 } }];
  return yardSchema.parse({ ...yard, procedures: [{ ...procedure, steps, links }] });
}

/** The first steps of some pieces are done so that each one's alarm is due at `moment`. */
async function plantAlarms(database: TestDatabase, moment: number): Promise<void> {
  const { owner } = database;
  const tasks = await owner.task.findMany({
    where: { yardId, stepId: { not: 'second' } },
    orderBy: { position: 'desc' },
    take: opening,
  });
  // A quarter of an hour before the hour is over.
  const finishedAt = new Date(moment - 45 * minuteMs);
  const startedAt = new Date(finishedAt.getTime() - 30 * minuteMs);
  await owner.task.updateMany({
    where: { yardId, id: { in: tasks.map(({ id }) => id) } },
    data: { state: 'done', startedAt, finishedAt },
  });
  await planted(database, yardId);
  await until(
    async () => (await owner.alarm.count({ where: { yardId, kind: 'opens' } })) === opening,
    60_000,
  );
}

interface Heard {
  /** ms since the epoch, by event: when the database told of it, and when it was begun. */
  readonly told: Map<string, number>;
  readonly begun: Map<string, number>;
  readonly received: [event: string, at: number][];
}

/** Reads a stream of events as a browser does; resolves once it is open. */
async function subscribe(
  url: string,
  { token }: Hand,
  place: string,
  heard: Heard,
): Promise<() => void> {
  const open = Promise.withResolvers<IncomingMessage>();
  const headers = { authorization: `Bearer ${token}`, 'x-forwarded-for': place };
  const request = get(`${url}/api/v1/yards/${yardId}/events`, { headers }, open.resolve);
  request.on('error', open.reject);
  const answer = await open.promise;
  if (answer.statusCode !== 200) throw new Error(`a stream: ${String(answer.statusCode)}`);
  let text = '';
  answer.setEncoding('utf8').on('data', (chunk: string) => {
    const at = Date.now();
    const blocks = `${text}${chunk}`.split('\n\n');
    text = blocks.pop() ?? '';
    for (const block of blocks) {
      const id = /^id: ?(\d+)$/m.exec(block)?.[1];
      const begun = /"at":"([^"]+)","byMemberId"/.exec(block)?.[1];
      if (id === undefined) continue;
      heard.received.push([id, at]);
      if (begun !== undefined) heard.begun.set(id, Date.parse(begun));
    }
  });
  return () => request.destroy();
}

/** Claims something and gives it back, about once a second. */
async function busy(
  base: string,
  { token }: Hand,
  tasks: readonly string[],
  end: number,
): Promise<void> {
  for (let k = 0; Date.now() < end; k += 1) {
    try {
      const claim = idOf(await asked(`${base}/tasks/${tasks[k % tasks.length]}/claims`, token, {}));
      await sleep(1000);
      await asked(`${base}/claims/${claim}/release`, token, {});
    } catch {
      // Somebody else was there first: that is not what is measured.
    }
    await sleep(500);
  }
}

async function listenTo(databaseUrl: string, heard: Heard): Promise<() => Promise<void>> {
  const client = new pg.Client(databaseUrl);
  await client.connect();
  client.on('notification', ({ payload = '' }) => {
    heard.told.set(payload.slice(payload.lastIndexOf(':') + 1), Date.now());
  });
  await client.query('LISTEN curewright_event');
  return () => client.end();
}

const rungSchema = z.array(z.object({ dueAt: z.date(), rungAt: z.date() }));

/**
 * Two processes of the service, 500 readers of a yard's events, a dozen builders who claim and give
 * back, and a worker whose alarms all fall due in the midst of it.
 */
export function fanOut(): Promise<Row> {
  return onStage(async (stage) => {
    const database = await stage.database('live');
    await storeYard(database, crowd());
    const ids = Array.from({ length: 200 }, (_, k) => `hand-${String(k).padStart(3, '0')}`);
    const hands = await signedIn(database, yardId, ids);
    const heard: Heard = { told: new Map(), begun: new Map(), received: [] };
    const processes: Process[] = [];
    const leaves: (() => void)[] = [];
    try {
      const env = { REQUESTS_PER_MINUTE: '1000000', TRUST_PROXY: '1' };
      const apis = [
        await startApiProcess(database.serviceUrl, env),
        await startApiProcess(database.serviceUrl, env),
      ];
      const worker = await startWorkerProcess(database.serviceUrl);
      processes.push(...apis, worker);
      for (let k = 0; k < subscribers; k += 1) {
        const place = `10.0.0.${String(1 + Math.floor(k / anAddress))}`;
        leaves.push(await subscribe(apis[k % 2].url, hands[k % hands.length], place, heard));
      }
      const moment = Math.ceil((Date.now() + 30_000) / minuteMs) * minuteMs;
      await plantAlarms(database, moment);
      const unlisten = await listenTo(database.serviceUrl, heard);
      const rows = await database.owner.task.findMany({
        where: { yardId, stepId: { not: 'second' }, state: 'waiting' },
      });
      const tasks = rows.map(({ id }) => id);
      const end = moment + 5_000;
      await Promise.all(
        hands.slice(0, busyHands).map((hand, k) => {
          const own = tasks.filter((_, at) => at % busyHands === k);
          return busy(`${apis[k % 2].url}/api/v1/yards/${yardId}`, hand, own, end);
        }),
      );
      await sleep(2_000);
      await unlisten();
      const rung = rungSchema.parse(
        await database.owner.alarm.findMany({ where: { yardId, kind: 'opens', state: 'rung' } }),
      );
      const late = rung.map(({ dueAt, rungAt }) => rungAt.getTime() - dueAt.getTime());
      return { ...told(heard), alarms: rung.length, ofAlarms: opening, alarmMs: Math.max(...late) };
    } finally {
      for (const leave of leaves) leave();
      for (const process of processes) await process.end('SIGTERM');
    }
  });
}

function told({ told: when, begun, received }: Heard): Record<string, number> {
  const since = (moments: ReadonlyMap<string, number>): number[] =>
    received.flatMap(([event, at]) => {
      const moment = moments.get(event);
      return moment === undefined ? [] : [at - moment];
    });
  const [ofCommit, ofBegin] = [since(when), since(begun)];
  return {
    subscribers,
    events: when.size,
    // Each to each: fewer would be one that was missed.
    missing: [...when.keys()].length * subscribers - ofCommit.length,
    medianMs: quantile(ofCommit, 0.5),
    p99Ms: quantile(ofCommit, 0.99),
    p99SinceBegunMs: quantile(ofBegin, 0.99),
  };
}
