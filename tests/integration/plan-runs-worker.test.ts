import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { foreman as foremanRow } from '#access/rule.ts';
import { inYard, service } from '#persistence/client.ts';
import { createBoss } from '#persistence/queue/boss.ts';
import { planRunQueue } from '#persistence/queue/plan-runs.ts';
import { testApi } from '#tests/support/api.ts';
import { testDatabase } from '#tests/support/database.ts';
import { largeYard } from '#tests/support/large-yard.ts';
import { makeYard, runsOf } from '#tests/support/plan-runs.ts';
import { type Process, startWorkerProcess } from '#tests/support/processes.ts';
import { serverSent, type ServerSent } from '#tests/support/streams.ts';
import { until } from '#tests/support/until.ts';
import { handlePlanRun } from '../../apps/worker/src/plan-runs/handle.ts';

const database = testDatabase();
const api = testApi(database);
let foreman = '';
const runs = runsOf(api, 'large', () => foreman);
const processes: Process[] = [];

async function startWorker(): Promise<Process> {
  const worker = await startWorkerProcess(database.serviceUrl);
  processes.push(worker);
  return worker;
}

/** Longer than any test takes to get in its way. */
const seconds = 60;

/** Until the run has a plan to lose, of the try that it is at. */
async function underWay(id: string, attempts = 1): Promise<void> {
  await until(async () => (await runs.get(id)).attempts >= attempts, 40_000);
  for await (const { data } of serverSent(runs.events(id), { token: foreman })) {
    if (data.bestFinish !== null) return;
  }
}

/** Has the search end with what it has. */
async function ended(id: string): Promise<ServerSent['data'] | undefined> {
  expect((await runs.stop(id)).status).toBe(202);
  return (await runs.follow(id)).at(-1)?.data;
}

const plansOf = (runId: string) =>
  inYard(database.service, service('large'), (tx) =>
    tx.plan.count({ where: { yardId: 'large', runId } }),
  );

beforeAll(async () => {
  await api.addAccount('ines@yard.test');
  foreman = await api.signIn('ines@yard.test');
  await makeYard(api, largeYard('large'), foreman);
});
afterEach(() => Promise.all(processes.splice(0).map((process) => process.end('SIGKILL'))));

describe('a run whose worker', () => {
  it('is killed is taken up again by the next one, and has one plan', async () => {
    const killed = await startWorker();
    const { id } = await runs.start({ seconds });
    await underWay(id);
    expect(await killed.end('SIGKILL')).toBe('SIGKILL');
    expect(await runs.get(id)).toMatchObject({ status: 'running', attempts: 1 });
    await startWorker();
    await underWay(id, 2);
    expect(await ended(id)).toMatchObject({ status: 'stopped' });
    expect(await runs.get(id)).toMatchObject({ status: 'stopped', attempts: 2 });
    expect(await plansOf(id)).toBe(1);
  });

  it('is told to end goes back into the queue', async () => {
    const first = await startWorker();
    const { id } = await runs.start({ seconds });
    await underWay(id);
    expect(await first.end('SIGTERM')).toBe(0);
    expect(await runs.get(id)).toMatchObject({ status: 'queued', planId: null });
    await startWorker();
    await underWay(id, 2);
    expect(await ended(id)).toMatchObject({ status: 'stopped' });
    expect(await plansOf(id)).toBe(1);
  });

  it('never comes to an end with it fails at last', async () => {
    const { id } = await runs.start({ seconds });
    const boss = createBoss(database.serviceUrl, {
      role: 'sender',
      onError: (error) => expect.fail(error.message),
    });
    await boss.start();
    // As pg-boss does after the last try.
    await boss.cancel(planRunQueue.name, id);
    await boss.send(planRunQueue.givenUp, { yardId: 'large', runId: id });
    await boss.stop({ graceful: false });
    await startWorker();
    expect((await runs.follow(id)).at(-1)?.data).toMatchObject({ status: 'failed' });
    expect((await runs.get(id)).error).toContain('in 6 tries');
  });
});

describe('a run that two workers have', () => {
  it('gets the plan of the one that took it last, and no other', async () => {
    const { id } = await runs.start({ seconds });
    const said: string[] = [];
    const surroundings = {
      prisma: database.service,
      say: (line: string) => said.push(line),
      shutdown: new AbortController().signal,
      rule: { may: foremanRow },
    };
    const job = { data: { yardId: 'large', runId: id }, signal: new AbortController().signal };
    const first = handlePlanRun(surroundings, job);
    await underWay(id);
    const second = handlePlanRun(surroundings, job);
    await underWay(id, 2);
    await ended(id);
    await Promise.all([first, second]);
    expect((await runs.get(id)).error).toBeNull();
    expect(said.sort()).toEqual([
      `run ${id} of large: stopped`,
      `run ${id}: another worker has it`,
    ]);
    expect(await runs.get(id)).toMatchObject({ status: 'stopped', attempts: 2 });
    expect(await plansOf(id)).toBe(1);
    // Once more, as after a worker that ended the run and died before it told the queue.
    await handlePlanRun(surroundings, job);
    expect(await plansOf(id)).toBe(1);
  });
});

describe('a run whose requester', () => {
  it('is no foreman any more when it is taken up ends with that, and has no plan', async () => {
    const { id } = await runs.start({ seconds });
    const ines = { yardId: 'large', email: 'ines@yard.test' };
    await database.owner.member.updateMany({ where: ines, data: { roles: ['builder'] } });
    const surroundings = {
      prisma: database.service,
      say: (line: string) => expect.fail(line),
      shutdown: new AbortController().signal,
      rule: { may: foremanRow },
    };
    const signal = new AbortController().signal;
    await handlePlanRun(surroundings, { data: { yardId: 'large', runId: id }, signal });
    await database.owner.member.updateMany({ where: ines, data: { roles: ['foreman'] } });
    const message = 'Ines asked for the plan and is no foreman now.';
    expect(await runs.get(id)).toMatchObject({
      status: 'failed',
      attempts: 0,
      error: message,
      faults: [{ code: 'access.role', message, cure: 'Let a foreman ask for it again.' }],
    });
    expect((await runs.follow(id)).at(-1)).toMatchObject({
      event: 'end',
      data: { status: 'failed' },
    });
    expect(await plansOf(id)).toBe(0);
  });
});
