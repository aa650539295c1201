import { once } from 'node:events';
import { Client } from 'pg';
import { beforeAll, expect, test } from 'vitest';
import { z } from 'zod';
import { withClient } from '#persistence/roles.ts';
import { toLocal } from '#calendar/local-time.ts';
import { testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { type Line, lineTo } from '../support/held-answers.ts';
import { type Process, startApiProcess } from '../support/processes.ts';
import { publishPlan } from '../support/published-plan.ts';
import { roundTheClock } from '../support/round-the-clock.ts';
import { twoBoats } from '../support/two-boats.ts';
import { until } from '../support/until.ts';

const database = testDatabase();
const api = testApi(database);
let token = '';

beforeAll(async () => {
  const today = toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date;
  for (const name of ['ines', 'bram']) await api.addAccount(`${name}@yard.test`);
  const foreman = await api.signIn('ines@yard.test');
  token = await api.signIn('bram@yard.test');
  const body = roundTheClock(twoBoats(today));
  const made = await api.rest('POST', '/yards', { token: foreman, body });
  if (made.status !== 201) throw new Error(JSON.stringify(made.body));
  await api.join('small');
  await publishPlan(database, 'small');
});

/** A process of the service as in production, its answers cut off: whoever calls it over `line` hears nothing. */
async function mute(work: (line: Line, process: Process) => Promise<void>): Promise<void> {
  const process = await startApiProcess(database.serviceUrl);
  const line = await lineTo(process.url);
  try {
    line.cut();
    await work(line, process);
  } finally {
    await line.close();
    await process.end('SIGKILL');
  }
}

/** Somebody waits for the table: asked over a connection of its own, which sees how it is now. */
const isStuck = (): Promise<boolean> =>
  withClient(database.adminUrl, async (admin) => {
    const { rows } = await admin.query(`SELECT 1 FROM pg_stat_activity
      WHERE datname = current_database() AND wait_event_type = 'Lock' AND wait_event = 'relation'`);
    return rows.length > 0;
  });

/** What became of a call whose process was killed. */
const fate = (call: Promise<Response>): Promise<string> =>
  call.then(
    () => 'answered',
    () => 'lost',
  );

const claimOf = (url: string, task: string, key: string): Promise<Response> =>
  fetch(`${url}/api/v1/yards/small/tasks/${task}/claims`, {
    method: 'POST',
    headers: {
      authorization: `Bearer ${token}`,
      'content-type': 'application/json',
      'idempotency-key': key,
    },
    body: '{}',
  });

const reportTo = (url: string, body: object): Promise<Response> =>
  fetch(`${url}/api/v1/yards/small/reports`, {
    method: 'POST',
    headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });

/** `heard` resolves at the commit of the next event: the database tells of it then. */
async function nextCommit(): Promise<{ readonly heard: Promise<unknown> }> {
  const ear = new Client({ connectionString: database.ownerUrl });
  await ear.connect();
  await ear.query('LISTEN curewright_event');
  return { heard: once(ear, 'notification').finally(() => ear.end()) };
}

async function kindsOf(subjectId: string): Promise<string[]> {
  const where = { yardId: 'small', subjectId };
  const events = await database.owner.event.findMany({ where, orderBy: { id: 'asc' } });
  return events.map(({ kind }) => kind);
}

const layUp = 'petrel-panel.lay-up';
const other = 'heron-panel.lay-up';

test('a process that is killed between commit and answer: the repetition has the same answer', async () => {
  await mute(async (line, process) => {
    const committed = await nextCommit();
    const lost = fate(claimOf(line.url, layUp, 'claim-before-the-end'));
    await committed.heard;
    expect(await process.end('SIGKILL')).toBe('SIGKILL');
    expect(await lost).toBe('lost');
  });
  // Another process, which has never heard of it.
  const [claim] = await database.owner.claim.findMany({ where: { taskId: layUp } });
  for (let k = 0; k < 2; k += 1) {
    const again = await claimOf(api.url, layUp, 'claim-before-the-end');
    expect(again.status).toBe(201);
    expect(await again.json()).toMatchObject({
      id: claim.id,
      taskId: layUp,
      status: 'open',
      holder: { id: 'bram' },
    });
  }
  expect(await kindsOf(layUp)).toEqual(['task-claimed']);
});

test('a process that is killed before its commit: nothing was done, and the key is free', async () => {
  await mute(async (line, process) => {
    await withClient(database.adminUrl, async (admin) => {
      await admin.query('BEGIN');
      await admin.query('LOCK TABLE claim IN ACCESS EXCLUSIVE MODE');
      const lost = fate(claimOf(line.url, other, 'claim-that-never-was'));
      await until(isStuck);
      await process.end('SIGKILL');
      expect(await lost).toBe('lost');
      await admin.query('ROLLBACK');
    });
  });
  const again = await claimOf(api.url, other, 'claim-that-never-was');
  expect([again.status, await kindsOf(other)]).toEqual([201, ['task-claimed']]);
});

test('a phone whose queue was cut short sends it again: all is done, and each once', async () => {
  const now = Date.now();
  const at = (minutesAgo: number): string => new Date(now - minutesAgo * 60_000).toISOString();
  const finished = { kind: 'progress', taskId: layUp, leftMinutes: 20 };
  const queue = {
    sentAt: at(0),
    reports: [
      { key: 'q1', at: at(30), command: { kind: 'start', taskId: layUp } },
      { key: 'q2', at: at(20), command: finished },
      { key: 'q3', at: at(10), command: { ...finished, leftMinutes: 10 } },
      { key: 'q4', at: at(1), command: { kind: 'finish', taskId: layUp } },
    ],
  };
  const told = ['task-started', 'task-progressed', 'task-progressed', 'task-finished'];
  await mute(async (line, process) => {
    const committed = await nextCommit();
    const lost = fate(reportTo(line.url, queue));
    await committed.heard;
    await process.end('SIGKILL');
    expect(await lost).toBe('lost');
  });
  for (let k = 0; k < 2; k += 1) {
    const answer = await reportTo(api.url, { ...queue, sentAt: new Date().toISOString() });
    const { items } = z
      .object({ items: z.array(z.object({ outcome: z.string() })) })
      .parse(await answer.json());
    expect(items.map(({ outcome }) => outcome)).toEqual(['done', 'done', 'done', 'done']);
  }
  expect(await kindsOf(layUp)).toEqual(['task-claimed', ...told]);
});
