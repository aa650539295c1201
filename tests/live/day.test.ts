import { readFile, writeFile } from 'node:fs/promises';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { z } from 'zod';
import { inYard, service } from '#persistence/client.ts';
import { verifyReplay } from '#persistence/live/replay.ts';
import { testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { type Process, startWorkerProcess } from '../support/processes.ts';
import { journal, skeletonOf } from './day/journal.ts';
import { theDay } from './day/story.ts';
import { demoYardOn, callers, demoWorker, yardId } from './day/yard-day.ts';

/**
 * A day of live work on the demo yard, over the public API alone, with a worker as in production.
 * What it writes is kept as an example for readers: `KEEP_DAY=1 npm test -- day` writes it anew.
 */
const kept = new URL('../../docs/a-day-of-live-work.md', import.meta.url);
const database = testDatabase();
const api = testApi(database);
const people = ['maelle', 'tugdual', 'noemie', 'yann', 'solenn', 'gwendal', 'odile'] as const;
const tokens = new Map<string, string>();
let worker: Process;

beforeAll(async () => {
  for (const name of people) await api.addAccount(`${name}@demo.invalid`);
  for (const name of people) tokens.set(name, await api.signIn(`${name}@demo.invalid`));
  const made = await api.rest('POST', '/yards', {
    token: tokens.get('maelle') ?? '',
    body: demoYardOn('2026-12-04'),
  });
  if (made.status !== 201) throw new Error(JSON.stringify(made.body));
  await api.join(yardId);
  worker = await startWorkerProcess(database.serviceUrl, demoWorker);
}, 60_000);
afterAll(() => worker.end('SIGTERM'));

async function whileAway(work: () => Promise<void>): Promise<void> {
  await worker.end('SIGTERM');
  await work();
  worker = await startWorkerProcess(database.serviceUrl, demoWorker);
}

const checkSchema = z.looseObject({ violations: z.array(z.unknown()) });

test('a cold morning, an early gel, a builder ill, a window missed, a snag, a change: and a plan again', async () => {
  const written = journal(
    'A day of live work',
    'Everybody and everything in it is invented. Written by the test `tests/live/day.test.ts`, ' +
      'which does all of it over the public API; names of days and times are those of the run.',
  );
  const caller = callers(api, tokens);
  const planId = await theDay(caller, written, whileAway);
  const text = written.text();
  if (process.env.KEEP_DAY !== undefined) await writeFile(kept, text);
  expect(skeletonOf(text)).toEqual(skeletonOf(await readFile(kept, 'utf8')));

  const published = await caller.call('maelle', 'GET', '/published-plan');
  expect(published.body.id).toBe(planId);
  const checked = await caller.call('maelle', 'GET', `/plans/${planId}/check`);
  expect(checkSchema.parse(checked.body).violations).toEqual([]);
  const broken = await inYard(database.owner, service(yardId), (tx) => verifyReplay(tx, yardId));
  expect(broken).toEqual([]);
}, 400_000);
