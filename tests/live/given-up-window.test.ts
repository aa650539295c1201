import { afterAll, beforeAll, expect, test } from 'vitest';
import { z } from 'zod';
import { addDays } from '#calendar/local-date.ts';
import { toLocal } from '#calendar/local-time.ts';
import { inYard, service } from '#persistence/client.ts';
import { verifyReplay } from '#persistence/live/replay.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { type Answer, testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { runsOf } from '../support/plan-runs.ts';
import { type Process, startWorkerProcess } from '../support/processes.ts';
import { settled } from '../support/settled.ts';
import { moreBuilders, twoBoats } from '../support/two-boats.ts';
import { until } from '../support/until.ts';

/**
 * A rail is wiped, and before the coat is on all who laminate have gone home: no plan keeps the hour for
 * which the wipe is good. With a worker as in production.
 */
const database = testDatabase();
const api = testApi(database);
const yardId = 'small';
const laminators = ['ines', 'bram', ...moreBuilders];
const tokens = new Map<string, string>();
const today = toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date;
let worker: Process;

function yardWithRail(): YardInput {
  const yard = twoBoats(today);
  const [panel] = yard.procedures ?? [];
  const [petrel, heron] = yard.boats ?? [];
  const [layUp, fair] = panel.steps;
  const effort = { fixed: 20, perM2: 0, source: 'invented' };
  const wiped = {
    ...panel,
    id: 'wiped',
    steps: [
      { ...fair, id: 'wipe', name: 'wipe', air: 'clean' as const, tools: [], effort },
      { ...layUp, id: 'coat', name: 'coat', effort },
    ],
    links: [
      {
        ...{ id: 'next', from: 'wipe', to: 'coat' },
        opens: { kind: 'after' as const, minutes: 0 },
        closes: { kind: 'after' as const, minutes: 60 },
      },
    ],
  };
  const jobs = [{ id: 'rail', procedure: 'wiped' }];
  const rail = { id: 'rail', name: 'Rail', space: 'bay', areaM2: 2, jobs };
  const refits = petrel.refits?.map((refit) => ({
    ...refit,
    parts: [...(refit.parts ?? []), rail],
  }));
  return { ...yard, procedures: [panel, wiped], boats: [{ ...petrel, refits }, heron] };
}

const call = (who: string, method: string, path: string, body?: unknown): Promise<Answer> => {
  const token = tokens.get(who) ?? '';
  const sending = { token, ...(body === undefined ? {} : { body }) };
  return api.rest(method, `/yards/${yardId}${path}`, sending);
};

const takenSchema = z.object({ items: z.array(z.object({ outcome: z.string() })) });

/** What Cato's telephone reports of one task, each so many minutes ago. */
async function reported(taskId: string, steps: readonly [string, number][]): Promise<string[]> {
  const reports = steps.map(([kind, minutes]) => ({
    key: crypto.randomUUID(),
    at: new Date((Math.floor(Date.now() / 60_000) - minutes) * 60_000).toISOString(),
    command: { kind, taskId },
  }));
  const { body } = await call('cato', 'POST', '/reports', { reports });
  return takenSchema.parse(body).items.map(({ outcome }) => outcome);
}

async function changeDays(name: string, exceptions: readonly object[]): Promise<void> {
  const { headers } = await call('ines', 'GET', `/people/${name}`);
  const changed = await api.rest('PATCH', `/yards/${yardId}/people/${name}`, {
    token: tokens.get('ines') ?? '',
    body: { exceptions },
    headers: { 'if-match': headers.get('etag') ?? '' },
  });
  expect(changed.status).toBe(200);
}

const preparations = async (): Promise<string[][]> => {
  const where = { yardId, taskId: 'rail.coat' };
  const rows = await database.owner.rework.findMany({ where, include: { tasks: true } });
  return rows.map(({ tasks }) => tasks.map(({ state }) => state));
};

beforeAll(async () => {
  for (const name of laminators) await api.addAccount(`${name}@yard.test`);
  for (const name of laminators) tokens.set(name, await api.signIn(`${name}@yard.test`));
  const sending = { token: tokens.get('ines') ?? '', body: yardWithRail() };
  const made = await api.rest('POST', '/yards', sending);
  if (made.status !== 201) throw new Error(JSON.stringify(made.body));
  await api.join(yardId);
  worker = await startWorkerProcess(database.serviceUrl);
  const runs = runsOf(api, yardId, () => tokens.get('ines') ?? '');
  const { id } = await runs.start({ notBefore: undefined, iterations: 64 });
  await runs.follow(id);
  const { planId, error, why } = await runs.get(id);
  expect({ error, why }).toEqual({ error: null, why: [] });
  expect((await call('ines', 'POST', `/plans/${planId ?? ''}/publish`)).status).toBe(200);
}, 120_000);
afterAll(() => worker.end('SIGTERM'));

const candidatesSchema = z.object({
  items: z.array(z.looseObject({ planId: z.string(), cause: z.array(z.string()) })),
});

test('a window that no plan keeps is given up at once, and is kept by whoever comes all the same', async () => {
  const wiped = await reported('rail.wipe', [
    ['claim', 12],
    ['start', 10],
    ['finish', 5],
  ]);
  expect(wiped).toEqual(['done', 'done', 'done']);
  await settled(database, yardId);
  expect(await preparations()).toEqual([]);

  const gone = [0, 1].map((days) => ({ date: addDays(today, days), shifts: [], reason: 'away' }));
  for (const name of laminators) await changeDays(name, gone);
  await until(async () => (await preparations()).length > 0, 60_000);
  await settled(database, yardId);
  expect(await preparations()).toEqual([['waiting']]);
  const { body } = await call('ines', 'GET', '/candidates?state=open');
  const [candidate] = candidatesSchema.parse(body).items;
  expect(candidate.cause.join(' ')).toContain(
    'No plan keeps the window for “coat” on Rail after “wipe”: first it has to be vacuumed and wiped.',
  );
  const checked = await call('ines', 'GET', `/plans/${candidate.planId}/check`);
  expect(checked.body).toMatchObject({ violations: [] });
  const { status, why } = z
    .object({ items: z.array(z.looseObject({ status: z.string(), why: z.array(z.string()) })) })
    .parse((await call('ines', 'GET', '/plan-runs?first=20')).body)
    .items.find((run) => run.status === 'infeasible') ?? { status: 'none', why: [] };
  expect([status, why.join(' ')]).toEqual([
    'infeasible',
    expect.stringContaining('has to be over before the wiped surface is stale'),
  ]);

  // Cato turns back, and takes the preparation back with the work.
  expect(await reported('rail.coat', [['claim', 0]])).toEqual(['done']);
  expect(await preparations()).toEqual([['dropped']]);
  const undone = await database.owner.event.findFirstOrThrow({ where: { kind: 'rework-undone' } });
  expect(undone).toMatchObject({
    byMemberId: 'cato',
    payload: {
      words: '“coat” had been taken in hand in time: the preparation for it is not needed.',
    },
  });
  await settled(database, yardId);
  expect(await preparations()).toEqual([['dropped']]);
  // Given back, nobody is there for it again, which is found when anything happens.
  expect(await reported('rail.coat', [['release', 0]])).toEqual(['done']);
  await changeDays('bram', [...gone, { date: addDays(today, 2), shifts: [], reason: 'away' }]);
  await until(async () => (await preparations()).length > 1, 60_000);
  await settled(database, yardId);
  expect((await preparations()).flat().toSorted()).toEqual(['dropped', 'waiting']);
  await changeDays('cato', []);
  const begun = await reported('rail.coat', [
    ['claim', 0],
    ['start', 0],
  ]);
  expect(begun).toEqual(['done', 'done']);
  await settled(database, yardId);
  expect(await preparations()).toEqual([['dropped'], ['dropped']]);
  const differences = await inYard(database.service, service(yardId), (tx) =>
    verifyReplay(tx, yardId),
  );
  expect(differences).toEqual([]);
}, 240_000);
