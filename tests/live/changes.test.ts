import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { z } from 'zod';
import { lifeChangeSchema } from '#live/life/life.ts';
import { inYard, service } from '#persistence/client.ts';
import { verifyReplay } from '#persistence/live/replay.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { faultsOf, idsOf, testApi, type Answer } from '#tests/support/api.ts';
import { testDatabase } from '#tests/support/database.ts';
import { makeYard } from '#tests/support/plan-runs.ts';
import { type Process, startWorkerProcess } from '#tests/support/processes.ts';
import { twoBoats } from '#tests/support/two-boats.ts';
import { until } from '#tests/support/until.ts';

vi.setConfig({ testTimeout: 180_000 }); // searches of a worker, on a machine that may be busy

const yardId = 'small';
const database = testDatabase();
const api = testApi(database);
const tokens = { ines: '', bram: '', odile: '', otto: '' };
type Who = keyof typeof tokens;
let worker: Process | undefined;

/** Petrel is Odile's, Heron is Otto's, and Tern nobody's who has an account. */
function threeBoats(): YardInput {
  const yard = twoBoats(new Date().toISOString().slice(0, 10));
  const [petrel] = yard.boats ?? [];
  const tern = structuredClone(petrel);
  Object.assign(tern, { id: 'tern', name: 'Tern', owner: null });
  for (const refit of tern.refits ?? []) {
    refit.id = 'tern-refit';
    for (const part of refit.parts ?? []) {
      Object.assign(part, { id: 'tern-hatch', name: 'Hatch of Tern' });
      for (const job of part.jobs ?? []) job.id = 'tern-panel';
    }
  }
  return { ...yard, boats: [...(yard.boats ?? []), tern] };
}

beforeAll(async () => {
  for (const who of Object.keys(tokens) as Who[]) {
    await api.addAccount(`${who}@yard.test`);
    tokens[who] = await api.signIn(`${who}@yard.test`);
  }
  await makeYard(api, threeBoats(), tokens.ines);
  worker = await startWorkerProcess(database.serviceUrl);
});
afterAll(() => worker?.end('SIGTERM'));

const boatPrice = z.object({ boatId: z.string(), boat: z.string(), minutes: z.int() });
const changeSchema = z.looseObject({
  id: z.string(),
  state: z.string(),
  decides: z.string(),
  words: z.string(),
  raisedBy: z.object({ id: z.string().nullable(), name: z.string() }),
  proposal: z
    .looseObject({
      id: z.string(),
      state: z.string(),
      meaning: z.array(z.string()),
      words: z.array(z.string()),
      why: z.array(z.string()),
      outdated: z.boolean(),
      price: z
        .object({
          work: z.array(z.object({ skill: z.string(), name: z.string(), minutes: z.number() })),
          materials: z.array(z.looseObject({ id: z.string(), amount: z.number() })),
          cents: z.int().nullable(),
          boats: z.array(boatPrice.loose()),
        })
        .nullable(),
    })
    .nullable(),
});
type Change = z.output<typeof changeSchema>;

const path = (rest = ''): string => `/yards/${yardId}/changes${rest}`;
const call = (who: Who, method: string, at: string, body?: unknown): Promise<Answer> =>
  api.rest(method, at, { token: tokens[who], ...(body === undefined ? {} : { body }) });

async function ask(who: Who, change: object, words = ''): Promise<Change> {
  const answer = await call(who, 'POST', path(), { change, words });
  expect(answer.body).toMatchObject({ state: 'asked', proposal: { state: 'pricing' } });
  return changeSchema.parse(answer.body);
}

async function get(who: Who, id: string): Promise<Change> {
  return changeSchema.parse((await call(who, 'GET', path(`/${id}`))).body);
}

/** Once the worker is done with it. */
async function priced(who: Who, id: string): Promise<Change> {
  await until(async () => (await get(who, id)).proposal?.state !== 'pricing', 80_000);
  return get(who, id);
}

const accept = (who: Who, { id, proposal }: Change): Promise<Answer> =>
  call(who, 'POST', path(`/${id}/accept`), { proposalId: proposal?.id });

const tasksOf = (partId: string) =>
  database.owner.task.findMany({
    where: { yardId, partId },
    orderBy: { position: 'asc' },
    select: { id: true, state: true, workMinutes: true },
  });

describe('new measures that an owner wants', () => {
  let change: Change;

  it('are priced for every boat before anybody says yes', async () => {
    const asked = await ask('odile', { kind: 'size', partId: 'petrel-hatch', areaM2: 4 }, 'wider');
    expect(asked).toMatchObject({
      decides: 'owner',
      raisedBy: { id: 'odile' },
      words: 'Petrel: Hatch of Petrel: area 4 m² in place of 2 m². wider',
    });
    change = await priced('ines', asked.id);
    expect(change).toMatchObject({ state: 'priced', proposal: { state: 'priced', why: [] } });
    // 40 min/m² of laminating and 30 min/m² of fairing (the procedure `panel`) for 2 m² more.
    expect(change.proposal?.price).toMatchObject({
      work: [
        { skill: 'laminating', name: 'Laminating', minutes: 80 },
        { skill: 'fairing', name: 'Fairing', minutes: 60 },
      ],
    });
    expect(change.proposal?.meaning).toEqual(['2 tasks sized anew, 2 h 20 min of work more.']);
    const boats = change.proposal?.price?.boats ?? [];
    expect(boats.map(({ boat }) => boat).sort()).toEqual(['Heron', 'Petrel', 'Tern']);
    const petrel = boats.find(({ boatId }) => boatId === 'petrel');
    // Both tasks are longer by as much, whatever else is done when.
    expect(petrel?.minutes).toBeGreaterThanOrEqual(70);
    expect(change.proposal?.words).toContain('Laminating: 1.33 crew hours more.');
    expect(
      change.proposal?.words.filter((line) => line.startsWith('Petrel: finished ')),
    ).toHaveLength(1);
    expect(await tasksOf('petrel-hatch')).toMatchObject([
      { state: 'waiting', workMinutes: 110 },
      { state: 'waiting', workMinutes: 75 },
    ]);
  });

  it('are read by the owner without other boats and money, and by no other owner', async () => {
    const answer = await call('odile', 'GET', path(`/${change.id}`));
    const { proposal } = changeSchema.parse(answer.body);
    expect(proposal?.price?.boats.map(({ boatId }) => boatId)).toEqual(['petrel']);
    expect(proposal?.price?.cents).toBeNull();
    expect(JSON.stringify(answer.body)).not.toMatch(/heron|tern/i);
    expect((await call('otto', 'GET', path(`/${change.id}`))).status).toBe(404);
    expect(idsOf((await call('otto', 'GET', path())).body)).toEqual([]);
    expect(idsOf((await call('odile', 'GET', path())).body)).toEqual([change.id]);
    expect((await call('bram', 'GET', path())).status).toBe(403);
  });

  it('are hers to accept, at the price that she read', async () => {
    const foremans = await accept('ines', change);
    expect(foremans).toMatchObject({ status: 409, body: { code: 'change.state' } });
    const other = { proposalId: crypto.randomUUID() };
    expect((await call('odile', 'POST', path(`/${change.id}/accept`), other)).body).toMatchObject({
      code: 'proposal.stale',
    });
    expect((await get('odile', change.id)).state).toBe('priced');
    expect((await accept('otto', change)).status).toBe(404);

    const { status, body } = await accept('odile', change);
    expect([status, body]).toMatchObject([
      200,
      { state: 'accepted', decidedBy: { id: 'odile' }, proposal: { state: 'accepted' } },
    ]);
    expect(await tasksOf('petrel-hatch')).toMatchObject([
      { workMinutes: 190 },
      { workMinutes: 135 },
    ]);
    const part = await call('ines', 'GET', `/yards/${yardId}/parts/petrel-hatch`);
    expect(part.body).toMatchObject({ areaM2: 4 });
    const again = await accept('odile', change);
    expect(again.body).toMatchObject({ code: 'change.state' });
  });

  it('are on record as her word, down to each task', async () => {
    const event = await database.owner.event.findFirstOrThrow({
      where: { yardId, kind: 'change-accepted' },
    });
    expect(event).toMatchObject({ byMemberId: 'odile', subject: 'change', subjectId: change.id });
    const audited = await database.owner.audit.findMany({
      where: { yardId, record: { in: ['task', 'change_order', 'proposal'] }, memberId: 'odile' },
    });
    const tables = new Set(audited.map(({ record }) => record));
    expect([...tables].sort()).toEqual(['change_order', 'proposal', 'task']);
  });
});

describe('a part that is left out', () => {
  it('cannot be accepted at a price of before its work began', async () => {
    const asked = await ask('ines', { kind: 'drop-part', partId: 'heron-hatch' });
    expect(asked.decides).toBe('owner');
    const first = await priced('otto', asked.id);
    expect(first.proposal?.meaning).toEqual(['2 tasks not done, 3 h 5 min of work less.']);
    expect(first.raisedBy).toEqual({ id: null, name: 'The yard' });

    const claim = await call(
      'bram',
      'POST',
      `/yards/${yardId}/tasks/heron-panel.lay-up/claims`,
      {},
    );
    expect(claim.status).toBe(201);
    const start = `/yards/${yardId}/claims/${String(claim.body.id)}/start`;
    expect(
      (await call('ines', 'POST', start, { override: { reason: 'test of a yard at night' } }))
        .status,
    ).toBe(200);
    expect((await get('otto', asked.id)).proposal?.outdated).toBe(true);
    const stale = await accept('otto', first);
    expect(stale).toMatchObject({ status: 409, body: { code: 'proposal.stale' } });
    expect((await get('otto', asked.id)).state).toBe('priced');

    await call('otto', 'POST', path(`/${asked.id}/reprice`));
    const second = await priced('otto', asked.id);
    expect(second.proposal?.meaning).toEqual([
      '1 task not done, 1 h 15 min of work less.',
      'Under way, so it stays in the plan until somebody finishes or abandons it: "lay-up".',
    ]);
    expect(second.proposal?.price?.work).toEqual([
      { skill: 'fairing', name: 'Fairing', minutes: -75 },
    ]);
    expect((await accept('otto', second)).status).toBe(200);
    expect(await tasksOf('heron-hatch')).toMatchObject([
      { id: 'heron-panel.lay-up', state: 'working' },
      { id: 'heron-panel.fair', state: 'dropped' },
    ]);
    const { payload } = await database.owner.event.findFirstOrThrow({
      where: { yardId, kind: 'change-accepted' },
      orderBy: { id: 'desc' },
    });
    const { lives } = z.object({ lives: z.array(lifeChangeSchema) }).parse(payload);
    expect(lives).toMatchObject([
      { taskId: 'heron-panel.fair', before: { state: 'waiting' }, after: { state: 'dropped' } },
    ]);
  });

  it('does not come back with the next part', async () => {
    const refit = `/yards/${yardId}/refits/heron-refit/parts`;
    const job = { id: 'locker-panel', procedure: 'panel', after: ['heron-panel'] };
    const locker = { id: 'locker', name: 'Locker', space: 'bay', areaM2: 1, jobs: [job] };
    expect((await call('ines', 'POST', refit, locker)).status).toBe(201);
    expect(await tasksOf('heron-hatch')).toMatchObject([
      { state: 'working' },
      { state: 'dropped' },
    ]);
    // It came after the fairing, and now comes after the film that was to be faired.
    const link = await database.owner.taskLink.findMany({
      where: { yardId, toTaskId: 'locker-panel.lay-up' },
    });
    expect(link).toMatchObject([{ fromTaskId: 'heron-panel.lay-up', opensMilestone: 'sandable' }]);
  });
});

const graphChange = `id state decides proposal { id state meaning price { work { skill minutes } cents } }`;

describe('a further part, on a boat whose owner has no account', () => {
  const rail = {
    id: 'tern-rail',
    name: 'Rail',
    space: 'bay',
    areaM2: 1,
    jobs: [{ id: 'tern-rail', procedure: 'panel', after: ['tern-panel'] }],
  };

  it('is the foreman’s to ask for and to accept', async () => {
    const made = await api.graphql(
      `mutation($input: ChangeInput!) { askForChange(yardId: "${yardId}", input: $input) { ${graphChange} } }`,
      { input: { change: { kind: 'ADD_PART', refitId: 'tern-refit', part: rail } } },
      { token: tokens.ines },
    );
    const asked = z.object({ askForChange: z.object({ id: z.string(), decides: z.string() }) });
    const { id, decides } = asked.parse(made.body.data).askForChange;
    expect(decides).toBe('FOREMAN');
    const change = await priced('ines', id);
    expect(change.proposal?.meaning).toEqual(['2 tasks more, 1 h 55 min of work.']);
    const accepted = await api.graphql(
      `mutation($id: ID!, $input: AcceptChangeInput!) {
         acceptChange(yardId: "${yardId}", id: $id, input: $input) { ${graphChange} } }`,
      { id, input: { proposalId: change.proposal?.id } },
      { token: tokens.ines },
    );
    expect(accepted.body).toMatchObject({ data: { acceptChange: { state: 'ACCEPTED' } } });
    expect(await tasksOf('tern-rail')).toMatchObject([
      { id: 'tern-rail.lay-up', state: 'waiting', workMinutes: 70 },
      { id: 'tern-rail.fair', state: 'waiting', workMinutes: 45 },
    ]);
  });

  it('that cannot be planned says why, and to an owner only that', async () => {
    const id = 'petrel-deck';
    const deck = {
      id,
      name: 'Deck',
      space: 'bay',
      areaM2: 9000,
      jobs: [{ id, procedure: 'panel' }],
    };
    const asked = await ask('odile', { kind: 'add-part', refitId: 'petrel-refit', part: deck });
    const { state, proposal } = await priced('ines', asked.id);
    expect([state, proposal?.state, proposal?.price]).toEqual(['asked', 'unplannable', null]);
    expect(proposal?.why[0]).toBe('With this the yard has no plan.');
    expect(proposal?.why.join(' ')).toContain('lay-up');
    expect((await get('odile', asked.id)).proposal?.why).toEqual([
      'The yard cannot say when it would be done: it has to look at its plan first.',
    ]);
    expect((await accept('odile', asked)).body).toMatchObject({ code: 'change.state' });
    expect(proposal?.outdated).toBe(false);
    // Promised for another day, a boat is late or not by what is then another price.
    const refit = `/yards/${yardId}/refits/tern-refit`;
    const headers = { 'if-match': (await call('ines', 'GET', refit)).headers.get('etag') ?? '' };
    const body = { promised: '2099-06-01T12:00:00Z' };
    const moved = await api.rest('PATCH', refit, { token: tokens.ines, body, headers });
    expect(moved.status, JSON.stringify(moved.body)).toBe(200);
    expect((await get('odile', asked.id)).proposal?.outdated).toBe(true);
    const declined = await call('ines', 'POST', path(`/${asked.id}/decline`), {
      note: 'too large',
    });
    expect(declined.body).toMatchObject({ state: 'declined', note: 'too large' });
  });
});

describe('what cannot be asked', () => {
  const part = {
    id: 'x',
    name: 'X',
    space: 'bay',
    areaM2: 1,
    jobs: [{ id: 'x', procedure: 'no' }],
  };

  it.each([
    [{ kind: 'size', partId: 'petrel-hatch', areaM2: 4 }, 422, [['change.areaM2', 'input.field']]],
    [{ kind: 'size', partId: 'petrel-hatch' }, 422, [['change', 'input.field']]],
    [{ kind: 'size', partId: 'petrel-hatch', areaM2: -1 }, 422, [['change.areaM2', 'input.field']]],
    [
      { kind: 'add-part', refitId: 'petrel-refit', part },
      422,
      [['change.part.jobs[0].procedure', 'yard.reference']],
    ],
  ])('names the field: %j', async (change, status, faults) => {
    const answer = await call('odile', 'POST', path(), { change });
    expect([answer.status, faultsOf(answer.body)]).toEqual([status, faults]);
  });

  it('tells an owner nothing of what the yard has, and of the foreman’s what there is', async () => {
    const send = (who: Who, id: string): Promise<Answer> =>
      call(who, 'POST', path(), {
        change: {
          kind: 'add-part',
          refitId: 'petrel-refit',
          part: { ...part, space: 'attic', jobs: [{ id, procedure: 'panel' }] },
        },
      });
    const unknown = await send('odile', 'y');
    expect(faultsOf(unknown.body)).toEqual([['change.part.space', 'yard.reference']]);
    expect(unknown.body.detail).toBe('change.part.space: there is no "attic" for this');
    expect(JSON.stringify(unknown.body)).toContain('Ask the yard');
    expect(JSON.stringify(unknown.body)).not.toMatch(/hull|heron|there are/i);
    const taken = await send('odile', 'heron-panel');
    expect(faultsOf(taken.body)).toEqual([['change.part.jobs[0].id', 'yard.duplicate']]);
    expect(JSON.stringify(taken.body)).not.toMatch(/boats\[|hatch of heron/i);
    expect((await send('ines', 'y')).body.detail).toContain('there are: ');
  });

  it('finds no part of somebody else, as if it were not there', async () => {
    for (const partId of ['heron-hatch', 'nothing']) {
      const answer = await call('odile', 'POST', path(), { change: { kind: 'drop-part', partId } });
      expect([answer.status, answer.body.detail]).toEqual([
        422,
        `change.partId: there is no part "${partId}"`,
      ]);
      expect(faultsOf(answer.body)).toEqual([['change.partId', 'yard.reference']]);
    }
  });
});

it('says that a price is of other work than there is now, until it is priced again', async () => {
  const asked = await ask('odile', { kind: 'size', partId: 'petrel-hatch', areaM2: 7 });
  expect((await priced('odile', asked.id)).proposal?.outdated).toBe(false);
  const shelf = { id: 'shelf', name: 'Shelf', space: 'bay', areaM2: 1, jobs: [] };
  const added = await call('ines', 'POST', `/yards/${yardId}/refits/tern-refit/parts`, shelf);
  expect(added.status, JSON.stringify(added.body)).toBe(201);
  const old = await get('odile', asked.id);
  expect([old.proposal?.outdated, old.proposal?.state]).toEqual([true, 'priced']);
  expect((await get('ines', asked.id)).proposal?.outdated).toBe(true);
  expect((await accept('odile', old)).body.code).toBe('proposal.stale');
  await call('odile', 'POST', path(`/${asked.id}/reprice`));
  expect((await priced('odile', asked.id)).proposal?.outdated).toBe(false);
  expect((await call('odile', 'POST', path(`/${asked.id}/withdraw`), {})).status).toBe(200);
});

it('whoever asked takes it back, and nobody else', async () => {
  const asked = await ask('ines', { kind: 'size', partId: 'petrel-hatch', areaM2: 5 });
  const withdraw = path(`/${asked.id}/withdraw`);
  expect((await call('odile', 'POST', withdraw, {})).body).toMatchObject({ code: 'change.state' });
  expect((await call('ines', 'POST', withdraw, {})).body).toMatchObject({ state: 'withdrawn' });
  expect((await call('odile', 'POST', path(`/${asked.id}/decline`), {})).body).toMatchObject({
    code: 'change.state',
  });
  expect((await priced('ines', asked.id)).proposal?.state).toBe('superseded');
});

it('an owner who asks twice with one key has asked once', async () => {
  const body = { change: { kind: 'drop-part', partId: 'petrel-hatch' } };
  const headers = { 'idempotency-key': crypto.randomUUID() };
  const send = () => api.rest('POST', path(), { token: tokens.odile, body, headers });
  const [first, second] = [await send(), await send()];
  expect([first.status, second.status, second.body.id]).toEqual([201, 201, first.body.id]);
});

it('of one refit no more than twenty wait, whoever asks at once', async () => {
  const open = { yardId, refitId: 'heron-refit', state: { in: ['asked', 'priced'] } };
  expect(await database.owner.changeOrder.count({ where: open })).toBe(0);
  const input = { kind: 'drop-part', partId: 'heron-hatch' };
  await database.owner.changeOrder.createMany({
    data: Array.from({ length: 19 }, (_, k) => ({
      yardId,
      refitId: 'heron-refit',
      kind: 'drop-part',
      input,
      words: `planted ${String(k)}`,
      raisedById: 'otto',
    })),
  });
  const send = (areaM2: number): Promise<Answer> =>
    call('otto', 'POST', path(), { change: { kind: 'size', partId: 'heron-hatch', areaM2 } });
  const answers = await Promise.all([send(3), send(4)]);
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
  expect(answers.find(({ status }) => status === 409)?.body).toMatchObject({
    code: 'change.state',
    detail: '20 changes of this refit are open, and no more than 20 may be.',
  });
  // Of another refit there is room.
  const made = await ask('odile', { kind: 'size', partId: 'petrel-hatch', areaM2: 6 });
  expect((await call('odile', 'POST', path(`/${made.id}/withdraw`), {})).status).toBe(200);
  // One taken back makes room for one.
  const taken = answers.find(({ status }) => status === 201)?.body.id;
  expect((await call('otto', 'POST', path(`/${String(taken)}/withdraw`), {})).status).toBe(200);
  expect((await send(5)).status).toBe(201);
});

it('the log replays to what is stored', async () => {
  const faults = await inYard(database.service, service(yardId), (tx) => verifyReplay(tx, yardId));
  expect(faults).toEqual([]);
});
