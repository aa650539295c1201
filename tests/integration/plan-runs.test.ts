import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { testApi } from '#tests/support/api.ts';
import { testDatabase } from '#tests/support/database.ts';
import { smallYard } from '#tests/support/small-yard.ts';
import { startWorkerProcess, type WorkerProcess } from '#tests/support/worker.ts';

const database = testDatabase();
const api = testApi(database);
let worker: WorkerProcess | undefined;
let foreman = '';

beforeAll(async () => {
  for (const who of ['ines', 'bram', 'odile']) await api.addAccount(`${who}@yard.test`);
  foreman = await api.signIn('ines@yard.test');
  const made = await api.rest('POST', '/yards', { token: foreman, body: smallYard() });
  expect(made.status).toBe(201);
  worker = await startWorkerProcess(database.serviceUrl);
});
afterAll(() => worker?.end('SIGTERM'));

describe('a plan run', () => {
  it('is answered at once, and becomes a plan', async () => {
    const begun = await api.rest('POST', '/yards/small/plan-runs', {
      token: foreman,
      body: { iterations: 200, seed: 1, notBefore: '2026-11-30T07:00:00Z' },
    });
    expect(begun.body).toEqual({});
    const { id } = begun.body;
    await expect
      .poll(
        async () =>
          (await api.rest('GET', `/yards/small/plan-runs/${String(id)}`, { token: foreman })).body,
        { timeout: 20_000 },
      )
      .toMatchObject({ status: 'finished' });
  });
});
