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

const listedSchema = z.object({
  taskId: z.string(),
  notes: z.array(z.string()),
  startBy: z.object({ at: z.string() }).nullish(),
  why: z.string().optional(),
});
const readySchema = z.object({
  ready: z.array(listedSchema),
  waiting: z.array(listedSchema),
});
type Listed = z.output<typeof readySchema>;

/** Of the work on the rail, what Cato may take up and what waits. */
async function listed(): Promise<Listed> {
  const { body } = await call('cato', 'GET', '/ready?whose=mine&first=200');
  const { ready, waiting } = readySchema.parse(body);
  const ofRail = ({ taskId }: { readonly taskId: string }): boolean => taskId.startsWith('rail.');
  return { ready: ready.filter(ofRail), waiting: waiting.filter(ofRail) };
}
const idsOf = (list: readonly { readonly taskId: string }[]): string[] =>
  list.map(({ taskId }) => taskId);
const standsOf = async (taskId: string): Promise<unknown> =>
  (await call('ines', 'GET', `/tasks/${taskId}`)).body.stands;

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

  // The window is open all the same, and whoever stands there sees it: what it spares, and unless when.
  const { ready, waiting } = await listed();
  const [coat, wipe] = ready;
  expect(idsOf(ready)).toEqual(['rail.coat', expect.stringContaining('rail.wipe.wipe-') as string]);
  expect(waiting).toEqual([]);
  expect(coat.startBy).toMatchObject({ at: expect.any(String) as string });
  expect(coat.notes).toEqual([
    expect.stringMatching(
      /^Still open: begun by .+, it does not need “Vacuum and wipe again just before the coat”\.$/,
    ),
  ]);
  expect(wipe.notes).toEqual([
    expect.stringMatching(/^Needed only if “coat” is not begun by .+: its window is still open\.$/),
    // Nor would anybody be there for the coat after it.
    expect.stringMatching(
      /^Done now, it leads nowhere: “coat” has to begin by .+, and none of those who can do it are/,
    ),
  ]);
  expect(await standsOf('rail.coat')).toBe('ready');
  // Once somebody has the wiping in hand, the coat waits for that.
  expect(await reported(wipe.taskId, [['claim', 0]])).toEqual(['done']);
  expect((await listed()).waiting).toMatchObject([
    { taskId: 'rail.coat', notes: [], why: expect.stringContaining('is not done') as string },
  ]);
  expect(await standsOf('rail.coat')).toBe('waiting');
  const refused = await call('bram', 'POST', '/tasks/rail.coat/claims');
  expect(refused).toMatchObject({ status: 409, body: { code: 'claim.not-ready' } });
  expect(await reported(wipe.taskId, [['release', 0]])).toEqual(['done']);
  expect(idsOf((await listed()).ready)).toEqual(['rail.coat', wipe.taskId]);

  // Cato turns back, and takes the preparation back with the work.
  expect(await reported('rail.coat', [['claim', 0]])).toEqual(['done']);
  expect(await preparations()).toEqual([['dropped']]);
  expect((await listed()).ready).toMatchObject([{ taskId: 'rail.coat', notes: [] }]);
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
