import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { toLocal } from '#calendar/local-time.ts';
import { joinMember } from '#persistence/access/join.ts';
import { createClient, inYard, service } from '#persistence/client.ts';
import { readPidFile } from '#persistence/embedded/server.ts';
import { type Embedded, startEmbedded } from '#persistence/embedded/start.ts';
import { hashOf, newToken } from '#persistence/access/token.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import { verifyReplay } from '#persistence/live/replay.ts';
import { deployMigrations } from '#persistence/migrate/deploy.ts';
import { type Process, startApiProcess, startWorkerProcess } from '../support/processes.ts';
import { publishPlan } from '../support/published-plan.ts';
import { serverSent } from '../support/streams.ts';
import { until } from '../support/until.ts';
import { moreBuilders, twoBoats } from '../support/two-boats.ts';

/**
 * The whole service as processes of their own, over a server of its own: two apis, a worker and
 * PostgreSQL, each of which is killed or held still in turn.
 */
let folder = '';
let server: Embedded;
let owner: PrismaClient;
let apis: (Process & { url: string })[] = [];
let worker: Process;
const tokens = new Map<string, string>();
const names = ['ines', 'bram', ...moreBuilders] as const;
const yardId = 'small';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'curewright-faults-'));
  server = await startEmbedded({ folder, stopOnSignal: false });
  await deployMigrations(server.ownerUrl);
  owner = createClient(server.ownerUrl, { connections: 3 });
  apis = await Promise.all([
    startApiProcess(server.serviceUrl),
    startApiProcess(server.serviceUrl),
  ]);
  worker = await startWorkerProcess(server.serviceUrl);
  for (const name of names) tokens.set(name, await sessionOf(name));
  const { date: today } = toLocal(Math.floor(Date.now() / 60_000), 'Europe/London');
  const made = await ask(0, 'ines', 'POST', '/yards', twoBoats(today));
  expect(made.status).toBe(201);
  const members = await owner.member.findMany({ where: { yardId, accountId: null } });
  for (const { id, email } of members) {
    const account = await owner.account.findUnique({ where: { email: email ?? '' } });
    if (account) await joinMember(owner, { yardId, memberId: id, accountId: account.id });
  }
  const reader = createClient(server.serviceUrl, { connections: 3 });
  await publishPlan({ service: reader }, yardId);
  await reader.$disconnect();
}, 120_000);

afterAll(async () => {
  await Promise.all([...apis, worker].map((one) => one.end('SIGKILL')));
  await owner.$disconnect();
  await server.stop();
  await rm(folder, { recursive: true, force: true });
}, 60_000);

/** An account with a session that nobody signed in for. */
async function sessionOf(name: string): Promise<string> {
  const email = `${name}@yard.test`;
  const { id: accountId } = await owner.account.create({ data: { email, name } });
  const token = newToken();
  const expiresAt = new Date(Date.now() + 3_600_000);
  await owner.session.create({ data: { tokenHash: hashOf(token), accountId, expiresAt } });
  return token;
}

interface Answer {
  readonly status: number;
  readonly type: string;
  readonly body: Record<string, unknown>;
}

async function ask(
  api: number,
  who: string,
  method: string,
  path: string,
  body?: unknown,
  key?: string,
): Promise<Answer> {
  const answer = await fetch(`${apis[api].url}/api/v1${path}`, {
    method,
    headers: {
      authorization: `Bearer ${tokens.get(who) ?? ''}`,
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
      ...(key === undefined ? {} : { 'idempotency-key': key }),
    },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  return {
    status: answer.status,
    type: answer.headers.get('content-type') ?? '',
    body: z.record(z.string(), z.unknown()).parse(await answer.json()),
  };
}

const idOf = ({ body }: Answer): string => z.string().parse(body.id);
const eventsOf = (kind: string, subjectId: string): Promise<number> =>
  owner.event.count({ where: { yardId, kind, subjectId } });
const brokenReplay = (): Promise<readonly string[]> =>
  inYard(owner, service(yardId), (tx) => verifyReplay(tx, yardId));

describe('an api process', () => {
  test('that is held still does not do twice what was asked again elsewhere', async () => {
    const key = crypto.randomUUID();
    const path = `/yards/${yardId}/tasks/petrel-panel.lay-up/claims`;
    process.kill(apis[0].pid, 'SIGSTOP');
    const held = ask(0, 'bram', 'POST', path, {}, key);
    const other = await ask(1, 'bram', 'POST', path, {}, key);
    expect(other.status).toBe(201);
    process.kill(apis[0].pid, 'SIGCONT');
    const late = await held;
    expect([late.status, late.body]).toEqual([201, other.body]);
    expect(await eventsOf('task-claimed', 'petrel-panel.lay-up')).toBe(1);
  });

  test('that is killed lets go of nothing that it had answered', async () => {
    const before = await ask(0, 'bram', 'GET', `/yards/${yardId}/claims?mine`);
    await apis[0].end('SIGKILL');
    apis[0] = await startApiProcess(server.serviceUrl);
    expect((await ask(0, 'bram', 'GET', `/yards/${yardId}/claims?mine`)).body).toEqual(before.body);
  });
});

describe('the worker', () => {
  test('killed in the middle of a search loses nothing: the run ends elsewhere, once', async () => {
    const run = idOf(
      await ask(1, 'ines', 'POST', `/yards/${yardId}/plan-runs`, { seconds: 4, seed: 3 }),
    );
    const status = async (): Promise<unknown> =>
      (await ask(1, 'ines', 'GET', `/yards/${yardId}/plan-runs/${run}`)).body.status;
    await until(async () => (await status()) === 'running');
    await worker.end('SIGKILL');
    worker = await startWorkerProcess(server.serviceUrl);
    await until(async () => (await status()) === 'finished', 60_000);
    expect(await owner.plan.count({ where: { yardId, runId: run } })).toBe(1);
    expect(await eventsOf('plan-run-ended', run)).toBe(1);
  }, 90_000);
});

describe('PostgreSQL', () => {
  test('killed: clean errors, then all goes on with no restart of the service', async () => {
    const list = `/yards/${yardId}/claims?mine`;
    const stream = new AbortController();
    const heard: string[] = [];
    const url = `${apis[1].url}/api/v1/yards/${yardId}/events`;
    const listening = (async () => {
      const token = tokens.get('ines') ?? '';
      for await (const { event } of serverSent(url, { token, signal: stream.signal })) {
        heard.push(event);
      }
    })();
    const task = 'heron-panel.lay-up';
    const claim = idOf(await ask(1, 'anke', 'POST', `/yards/${yardId}/tasks/${task}/claims`, {}));
    const kept = await ask(1, 'anke', 'GET', list);
    const running = await readPidFile(join(folder, 'data'));
    process.kill(running?.pid ?? -1, 'SIGKILL');
    const told = new Set<number | undefined>();
    await until(async () => {
      const answer = await ask(1, 'anke', 'GET', list).catch(() => null);
      told.add(answer?.status);
      return answer?.status === 503;
    });
    const refused = await ask(1, 'bram', 'POST', `/yards/${yardId}/plan-runs`, {});
    expect(refused.status).toBe(503);
    expect(refused.type).toContain('application/problem+json');
    expect(refused.body).toMatchObject({ code: 'service.unavailable' });
    expect(JSON.stringify(refused.body)).not.toMatch(/prisma|postgres|ECONN|stack/i);
    await server.stop();
    server = await startEmbedded({ folder, port: server.port, stopOnSignal: false });
    await until(async () => {
      const { status } = await ask(1, 'anke', 'GET', list);
      told.add(status);
      return status === 200;
    }, 30_000);
    expect([...told].toSorted()).toEqual([200, 503]);
    expect((await ask(1, 'anke', 'GET', list)).body).toEqual(kept.body);
    const started = await ask(0, 'anke', 'POST', `/yards/${yardId}/claims/${claim}/start`, {});
    expect([started.status, started.body.status]).toEqual([200, 'working']);
    // Who listened all the while hears of it: the notices are listened for again.
    await until(() => Promise.resolve(heard.includes('task-started')), 30_000);
    stream.abort();
    await listening;
    // The worker as well: it takes a run, and follows the log.
    const asked = await ask(0, 'ines', 'POST', `/yards/${yardId}/plan-runs`, {
      iterations: 16,
    });
    const run = `/yards/${yardId}/plan-runs/${idOf(asked)}`;
    const standing = async (): Promise<unknown> => (await ask(1, 'ines', 'GET', run)).body.status;
    const isOver = async (): Promise<boolean> =>
      !['queued', 'running'].includes(String(await standing()));
    await until(isOver, 60_000).catch(() => undefined);
    expect(await standing(), worker.lines.slice(-30).join('\n')).toBe('finished');
    await until(async () => {
      const cursor = await owner.logCursor.findUnique({ where: { yardId } });
      const last = await owner.event.aggregate({ where: { yardId }, _max: { id: true } });
      return cursor?.eventId === last._max.id;
    }, 30_000);
  }, 150_000);
});

test('after all of it the log replays to exactly what is stored', async () => {
  expect(await brokenReplay()).toEqual([]);
  expect(await owner.event.count({ where: { yardId, kind: 'task-started' } })).toBe(1);
});
