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
import { serverSent } from '#tests/support/streams.ts';
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

/** Until the run has a plan to lose. */
async function underWay(id: string): Promise<void> {
  for await (const { data } of serverSent(runs.events(id), { token: foreman })) {
    if (data.bestFinish !== null) return;
  }
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
    const { id } = await runs.start({ seconds: 4 });
    await underWay(id);
    expect(await killed.end('SIGKILL')).toBe('SIGKILL');
    expect(await runs.get(id)).toMatchObject({ status: 'running', attempts: 1 });
    await startWorker();
    const told = await runs.follow(id);
    expect(told.at(-1)?.data).toMatchObject({ status: 'finished' });
    expect(await runs.get(id)).toMatchObject({ status: 'finished', attempts: 2 });
    expect(await plansOf(id)).toBe(1);
  });

  it('is told to end goes back into the queue', async () => {
    const ended = await startWorker();
    const { id } = await runs.start({ seconds: 4 });
    await underWay(id);
    expect(await ended.end('SIGTERM')).toBe(0);
    expect(await runs.get(id)).toMatchObject({ status: 'queued', planId: null });
    await startWorker();
    expect((await runs.follow(id)).at(-1)?.data).toMatchObject({ status: 'finished' });
    expect(await plansOf(id)).toBe(1);
  });

  it('never comes to an end with it fails at last', async () => {
    const { id } = await runs.start({ seconds: 4 });
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
    const { id } = await runs.start({ seconds: 3 });
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
    await Promise.all([first, handlePlanRun(surroundings, job)]);
    expect((await runs.get(id)).error).toBeNull();
    expect(said.sort()).toEqual([
      `run ${id} of large: finished`,
      `run ${id}: another worker has it`,
    ]);
    expect(await runs.get(id)).toMatchObject({ status: 'finished', attempts: 2 });
    expect(await plansOf(id)).toBe(1);
    // Once more, as after a worker that ended the run and died before it told the queue.
    await handlePlanRun(surroundings, job);
    expect(await plansOf(id)).toBe(1);
  });
});

describe('a run whose requester', () => {
  it('is no foreman any more when it is taken up ends with that, and has no plan', async () => {
    const { id } = await runs.start({ seconds: 3 });
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
