import { afterAll, beforeAll, expect, it } from 'vitest';
import { z } from 'zod';
import { inYard, service } from '#persistence/client.ts';
import { verifyReplay } from '#persistence/live/replay.ts';
import { faultsOf, testApi, type Answer } from '#tests/support/api.ts';
import { testDatabase } from '#tests/support/database.ts';
import { makeYard } from '#tests/support/plan-runs.ts';
import { type Process, startWorkerProcess } from '#tests/support/processes.ts';
import { twoBoats } from '#tests/support/two-boats.ts';
import { until } from '#tests/support/until.ts';

const yardId = 'small';
const database = testDatabase();
const api = testApi(database);
const tokens = { ines: '', bram: '' };
type Who = keyof typeof tokens;
let worker: Process | undefined;

const ago = (minutes: number): string =>
  new Date(Math.floor(Date.now() / 60_000 - minutes) * 60_000).toISOString();
const call = (who: Who, method: string, at: string, body?: unknown): Promise<Answer> =>
  api.rest(method, `/yards/${yardId}${at}`, {
    token: tokens[who],
    ...(body === undefined ? {} : { body }),
  });
const idOf = ({ body }: Answer): string => z.string().parse(body.id);
const snagSchema = z.looseObject({
  state: z.string(),
  proposal: z.looseObject({ id: z.string(), state: z.string() }).nullable(),
  reworks: z.array(z.looseObject({ id: z.string(), taskIds: z.array(z.string()) })),
});

beforeAll(async () => {
  for (const who of Object.keys(tokens) as Who[]) {
    await api.addAccount(`${who}@yard.test`);
    tokens[who] = await api.signIn(`${who}@yard.test`);
  }
  await makeYard(api, twoBoats(new Date().toISOString().slice(0, 10)), tokens.ines);
  worker = await startWorkerProcess(database.serviceUrl);
});
afterAll(() => worker?.end('SIGTERM'));

it('what is at fault is done again without a price on the foreman’s word, where the yard has no plan', async () => {
  const claim = idOf(await call('bram', 'POST', '/tasks/heron-panel.lay-up/claims', {}));
  await call('bram', 'POST', `/claims/${claim}/start`, { at: ago(4000) });
  await call('bram', 'POST', `/claims/${claim}/finish`, { at: ago(3900) });
  // What is left to be done on it takes years.
  const part = await call('ines', 'GET', '/parts/heron-hatch');
  const wider = await api.rest('PATCH', `/yards/${yardId}/parts/heron-hatch`, {
    token: tokens.ines,
    body: { areaM2: 9000 },
    headers: { 'if-match': `"${String(part.body.revision)}"` },
  });
  expect(wider.status).toBe(200);
  const raised = await call('bram', 'POST', '/parts/heron-hatch/snags', {
    kind: 'void',
    words: 'hollow by the edge',
    taskId: 'heron-panel.lay-up',
    areaM2: 0.5,
    at: ago(10),
  });
  const id = idOf(raised);
  expect((await call('ines', 'POST', `/snags/${id}/propose`)).status).toBe(202);
  const read = async () => snagSchema.parse((await call('ines', 'GET', `/snags/${id}`)).body);
  await until(async () => (await read()).proposal?.state !== 'pricing', 60_000);
  const { proposal } = await read();
  expect(proposal).toMatchObject({ state: 'unplannable', price: null });
  const accept = (who: Who, more: object): Promise<Answer> =>
    call(who, 'POST', `/snags/${id}/accept`, { proposalId: proposal?.id, ...more });

  const silent = await accept('ines', {});
  expect(silent).toMatchObject({ status: 409, body: { code: 'snag.state' } });
  expect(JSON.stringify(silent.body)).toContain('override.reason');
  expect(faultsOf((await accept('ines', { override: { reason: ' ' } })).body)).toEqual([
    ['override.reason', 'input.field'],
  ]);
  const override = { reason: 'It cannot stay hollow' };
  expect((await accept('bram', { override })).status).toBe(403);
  expect((await read()).state).toBe('proposed');
  const accepted = await accept('ines', { override });
  expect([accepted.status, accepted.body.state, accepted.body.note]).toEqual([
    200,
    'accepted',
    override.reason,
  ]);
  const [rework] = snagSchema.parse(accepted.body).reworks;
  expect(rework.taskIds.length).toBeGreaterThan(0);
  const event = await database.owner.event.findFirstOrThrow({
    where: { yardId, kind: 'snag-accepted', subjectId: id },
  });
  expect(event).toMatchObject({ byMemberId: 'ines', payload: { reworkId: rework.id, override } });
  const faults = await inYard(database.service, service(yardId), (tx) => verifyReplay(tx, yardId));
  expect(faults).toEqual([]);
});
