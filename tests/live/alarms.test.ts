import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import { type Answer, testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { type Process, startWorkerProcess } from '../support/processes.ts';
import { publishPlan } from '../support/published-plan.ts';
import { serverSent, type ServerSent, subscriber } from '../support/streams.ts';
import { moreBuilders } from '../support/two-boats.ts';
import { ago, alarmYard, wallTime } from './alarms/alarm-yard.ts';

/** The service, its database, and two workers as processes of their own. */
const database = testDatabase();
const api = testApi(database);
const workers: Process[] = [];
const names = ['ines', 'bram', 'fay', ...moreBuilders] as const;
const tokens = new Map<string, string>();
let sheet: PlanSheet;

beforeAll(async () => {
  for (const name of names) await api.addAccount(`${name}@yard.test`);
  for (const name of names) tokens.set(name, await api.signIn(`${name}@yard.test`));
  const made = await ask('ines', 'POST', '', alarmYard());
  if (made.status !== 201) throw new Error(JSON.stringify(made.body));
  await api.join('small');
  sheet = await publishPlan(database, 'small');
  workers.push(
    ...(await Promise.all([
      startWorkerProcess(database.serviceUrl),
      startWorkerProcess(database.serviceUrl),
    ])),
  );
}, 150_000);
afterAll(() => Promise.all(workers.map((worker) => worker.end('SIGKILL'))));

const tokenOf = (name: string): string => tokens.get(name) ?? '';
const ask = (name: string, method: string, below: string, body?: unknown): Promise<Answer> =>
  api.rest(method, `/yards${below}`, {
    token: tokenOf(name),
    ...(body === undefined ? {} : { body }),
  });

/** Anke lays something, from and until so many minutes ago. */
async function laid(taskId: string, from: number, until: number): Promise<void> {
  const claim = await ask('ines', 'POST', `/small/tasks/${taskId}/claims`, {
    crew: ['anke'],
    at: ago(from),
  });
  const below = `/small/claims/${String(claim.body.id)}`;
  const began = await ask('ines', 'POST', `${below}/start`, {
    at: ago(from),
    override: { reason: 'it was so' },
  });
  expect([began.status, began.body]).toEqual([200, expect.anything()]);
  expect((await ask('ines', 'POST', `${below}/finish`, { at: ago(until) })).status).toBe(200);
}

/** Whom the published plan has the task down for. */
function plannedFor(taskId: string): [string, ...string[]] {
  const crew = sheet.tasks.find(({ id }) => id === taskId)?.crew.map(({ personId }) => personId);
  const [first, ...others] = crew ?? [];
  return [first, ...others];
}

const rowOf = (where: object) =>
  database.owner.alarm.findFirst({ where, orderBy: { createdAt: 'desc' } });
/** The alarm, once it is there. */
async function alarm(where: object, ms = 60_000) {
  await expect.poll(() => rowOf(where), { timeout: ms }).not.toBeNull();
  const found = await rowOf(where);
  if (found === null) throw new Error('it went away');
  return found;
}

const streamUrl = (): string => `${api.url}/api/v1/yards/small/alarms/stream`;

/** What comes on somebody's stream until `enough` of it did. */
async function streamed(
  name: string,
  enough: (got: readonly ServerSent[]) => boolean,
  lastEventId?: string,
): Promise<ServerSent[]> {
  const leaving = new AbortController();
  const got: ServerSent[] = [];
  const options = { token: tokenOf(name), signal: leaving.signal };
  const all = { ...options, ...(lastEventId === undefined ? {} : { lastEventId }) };
  for await (const one of serverSent(streamUrl(), all)) {
    got.push(one);
    if (enough(got)) leaving.abort();
  }
  return got;
}

const pageSchema = z.object({
  items: z.array(
    z.object({
      id: z.string(),
      kind: z.string(),
      taskId: z.string(),
      words: z.string(),
      acknowledgedAt: z.string().nullable(),
      audience: z.array(z.object({ id: z.string(), acknowledgedAt: z.string().nullable() })),
    }),
  ),
  nextCursor: z.string().nullable(),
});
const list = async (name: string, query = '') =>
  pageSchema.parse((await ask(name, 'GET', `/small/alarms${query}`)).body);

describe('an alarm that rings', () => {
  test('is told once, to whom it is for, in the words and at the wall times of the yard', async () => {
    const [builder] = plannedFor('locker.two');
    const client = subscriber(api.url, tokenOf(builder));
    const told = Promise.withResolvers<unknown>();
    const leave = client.subscribe(
      { query: 'subscription { alarms(yardId: "small") { eventId id kind taskId words } }' },
      {
        next: ({ data }) => told.resolve(data?.['alarms']),
        error: told.reject,
        complete: () => undefined,
      },
    );
    const stream = streamed(builder, (got) => got.length === 1);
    // It was finished 50 minutes ago, and the second coat may follow after an hour.
    await laid('locker.one', 70, 50);
    const [event] = await stream;
    const row = await alarm({ key: 'opens:locker.two', state: 'rung' });
    const opens = new Date(Date.parse(ago(0)) + 10 * 60_000).toISOString();
    expect(event.event).toBe('alarm');
    expect(event.data).toMatchObject({ id: row.id, kind: 'opens', taskId: 'locker.two' });
    expect(row.words).toMatch(
      /^Second coat \(Locker, Heron\) opens in (9|10) min, at \d\d:\d\d\.$/,
    );
    expect(
      [0, -1]
        .map((late) => new Date(Date.parse(opens) + late * 60_000).toISOString())
        .map(wallTime),
    ).toContain(row.words.slice(-6, -1));
    expect(await told.promise).toMatchObject({ id: row.id, kind: 'OPENS', words: row.words });
    leave();
    await client.dispose();
    expect(row.audience).toEqual(plannedFor('locker.two'));
    const rung = { kind: 'alarm-rung', subjectId: row.id };
    expect(await database.owner.event.count({ where: rung })).toBe(1);
    // Others are not told; the foreman reads who was.
    const other = names.find((name) => name !== 'ines' && !row.audience.includes(name)) ?? '';
    expect((await list(other)).items).toEqual([]);
    expect((await list('ines', '?all')).items.map(({ id }) => id)).toContain(row.id);
    expect((await ask(other, 'GET', '/small/alarms?all')).status).toBe(403);
    expect((await ask(other, 'POST', `/small/alarms/${row.id}/acknowledge`)).status).toBe(404);
  });

  test('goes on after the last event that a client has, and begins with what it was not shown', async () => {
    const [builder] = plannedFor('bench.two');
    const before = await streamed(builder, () => true).catch(() => []);
    await laid('bench.one', 70, 50);
    const row = await alarm({ key: 'opens:bench.two', state: 'rung' });
    const own = (got: readonly ServerSent[]): boolean =>
      got.some(({ data }) => data['id'] === row.id);
    const fresh = await streamed(builder, own);
    const mine = fresh.find(({ data }) => data['id'] === row.id);
    // After the one before it comes this one, and nothing that was before that.
    const previous = before.at(0)?.id ?? String(Number(mine?.id) - 1);
    const resumed = await streamed(builder, own, previous);
    expect(resumed.map(({ id }) => id)).toContain(mine?.id);
    expect(resumed.every(({ id }) => BigInt(id) > BigInt(previous))).toBe(true);
    // One device shows it; the other asks, and does not; a stream that begins anew is without it.
    const shown = () => ask(builder, 'POST', `/small/alarms/${row.id}/shown`);
    expect((await shown()).body.first).toBe(true);
    const mutation = `mutation { alarmShown(yardId: "small", id: "${row.id}") { first alarm { id } } }`;
    const again = await api.graphql(mutation, {}, { token: tokenOf(builder) });
    expect(again.body.data).toEqual({ alarmShown: { first: false, alarm: { id: row.id } } });
    expect((await shown()).body.first).toBe(false);
  });

  test('is acknowledged by each person for themselves', async () => {
    const [builder] = plannedFor('bench.two');
    const { items } = await list(builder);
    const newest = items[0];
    const path = `/small/alarms/${newest.id}/acknowledge`;
    const first = await ask(builder, 'POST', path);
    expect(first.status).toBe(200);
    const second = await ask(builder, 'POST', path);
    expect(second.body.acknowledgedAt).toBe(first.body.acknowledgedAt);
    const after = await list(builder);
    // What is not acknowledged comes first; in pages of one the order is the same.
    expect(after.items.at(-1)?.id).toBe(newest.id);
    const paged: string[] = [];
    for (let cursor: string | null = ''; cursor !== null;) {
      const page = await list(builder, `?first=1${cursor === '' ? '' : `&after=${cursor}`}`);
      paged.push(...page.items.map(({ id }) => id));
      cursor = page.nextCursor;
    }
    expect(paged).toEqual(after.items.map(({ id }) => id));
    const seen = (await list('ines', '?all')).items.find(({ id }) => id === newest.id);
    expect(seen?.acknowledgedAt).toBeNull();
    expect(seen?.audience.find(({ id }) => id === builder)?.acknowledgedAt).not.toBeNull();
    const acknowledged = { kind: 'alarm-acknowledged', subjectId: newest.id };
    expect(await database.owner.event.count({ where: acknowledged })).toBe(1);
  });
});

const readySchema = z.object({
  waiting: z.array(
    z.object({ taskId: z.string(), opens: z.object({ at: z.string() }).nullable() }),
  ),
});

describe('an alarm to come', () => {
  test('moves with the clock of its film, and does not ring meanwhile', async () => {
    await laid('petrel-panel.lay-up', 60, 30);
    const key = 'opens:petrel-panel.fair';
    const before = await alarm({ key, state: 'armed' });
    const logged = Array.from({ length: 3 }, (_, k) => ({
      space: 'bay',
      at: ago(30 - k * 10),
      minutes: 10,
      celsius: 10,
    }));
    expect((await ask('ines', 'POST', '/small/readings', { readings: logged })).status).toBe(201);
    await expect.poll(async () => (await rowOf({ key }))?.moves, { timeout: 60_000 }).toBe(1);
    const after = await alarm({ key });
    expect([after.id, after.state]).toEqual([before.id, 'armed']);
    expect(after.dueAt.getTime()).toBeGreaterThan(before.dueAt.getTime());
    // A quarter of an hour before what the ready list says.
    const { body } = await ask('ines', 'GET', '/small/ready?whose=all');
    const fair = readySchema
      .parse(body)
      .waiting.find(({ taskId }) => taskId === 'petrel-panel.fair');
    expect(Date.parse(fair?.opens?.at ?? '') - after.dueAt.getTime()).toBe(15 * 60_000);
  });

  test('of a lease is on time, whatever becomes of the worker that armed it, and void once it is given back', async () => {
    // The lease is half an hour, and five minutes before its end it is told: in some six seconds.
    const dueMs = 6_000;
    const at = new Date(Date.now() - 25 * 60_000 + dueMs).toISOString();
    const path = '/small/tasks/tiller.one/claims';
    const claim = await ask('ines', 'POST', path, { crew: ['bram'], at });
    expect(claim.status).toBe(201);
    const key = `lapses:${String(claim.body.id)}`;
    await alarm({ key, state: 'armed' });
    const [first] = workers.splice(0, 1);
    await first.end('SIGKILL');
    const rung = await alarm({ key, state: 'rung' });
    const late = (rung.rungAt?.getTime() ?? NaN) - rung.dueAt.getTime();
    expect(late).toBeGreaterThan(-2_000);
    // Idle, under a second; how late it is under load, the bench of live work measures.
    expect(late).toBeLessThan(20_000);
    expect(rung.words).toMatch(/^First coat \(Tiller, Heron\): your claim lapses in 5 min, at/);
    expect(
      (await ask('bram', 'POST', `/small/claims/${String(claim.body.id)}/release`)).status,
    ).toBe(200);
    const next = await ask('ines', 'POST', path, { crew: ['bram'] });
    const nextKey = `lapses:${String(next.body.id)}`;
    await alarm({ key: nextKey, state: 'armed' });
    await ask('bram', 'POST', `/small/claims/${String(next.body.id)}/release`);
    await alarm({ key: nextKey, state: 'void' });
  });

  test('of a window that shut tells of the preparation that was added', async () => {
    await laid('rail.one', 240, 220);
    const missed = await alarm({ kind: 'missed', taskId: 'rail.two', state: 'rung' });
    expect(missed.words).toMatch(/^Second coat \(Rail, Heron\): preparation added\. ./);
    expect(missed.audience).toContain('ines');
    const reworks = await database.owner.rework.findMany({ where: { cause: 'missed-window' } });
    expect(reworks.map(({ taskId }) => taskId)).toEqual(['rail.two']);
    const count = await database.owner.alarm.count({
      where: { kind: 'missed', taskId: 'rail.two', state: 'rung' },
    });
    expect(count).toBe(1);
  });
});
