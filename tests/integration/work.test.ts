import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { toLocal } from '#calendar/local-time.ts';
import { type Answer, testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { planted } from '../support/planted.ts';
import { publishPlan } from '../support/published-plan.ts';
import { moreBuilders, twoBoats } from '../support/two-boats.ts';

const database = testDatabase();
const api = testApi(database);
const dayOf = (at: Date): string =>
  toLocal(Math.floor(at.getTime() / 60_000), 'Europe/London').date;
const today = dayOf(new Date());

const names = ['ines', 'bram', 'odile', 'otto', 'fay', ...moreBuilders] as const;
type Name = (typeof names)[number];
const tokens = new Map<Name, string>();

beforeAll(async () => {
  for (const name of [...names, 'stranger']) await api.addAccount(`${name}@yard.test`);
  for (const name of names) tokens.set(name, await api.signIn(`${name}@yard.test`));
  const { status, body } = await call('ines', 'POST', '/yards', twoBoats(today));
  if (status !== 201) throw new Error(JSON.stringify(body));
  await api.join('small');
  await publishPlan(database, 'small');
});

function call(who: Name, method: string, path: string, body?: unknown): Promise<Answer> {
  const token = tokens.get(who) ?? '';
  return api.rest(method, path, { token, ...(body === undefined ? {} : { body }) });
}

const claimIt = (who: Name, task: string, body?: unknown): Promise<Answer> =>
  call(who, 'POST', `/yards/small/tasks/${task}/claims`, body);
const act = (who: Name, claim: Answer, verb: string, body?: unknown): Promise<Answer> =>
  call(who, 'POST', `/yards/small/claims/${idOf(claim)}/${verb}`, body);
const idOf = ({ body }: Answer): string => z.string().parse(body.id);

const listSchema = z.object({
  ready: z.array(z.looseObject({ taskId: z.string() })),
  waiting: z.array(z.looseObject({ taskId: z.string(), why: z.string() })),
});
async function readyFor(who: Name, query = ''): Promise<z.output<typeof listSchema>> {
  const { status, body } = await call(who, 'GET', `/yards/small/ready${query}`);
  expect(status).toBe(200);
  return listSchema.parse(body);
}
const idsOf = (tasks: readonly { taskId: string }[]): string[] => tasks.map(({ taskId }) => taskId);

const minutesAgo = (minutes: number): string =>
  new Date(Math.floor(Date.now() / 60_000 - minutes) * 60_000).toISOString();

describe('what is ready', () => {
  test('a builder sees what the own skills can do, and what the rest waits for', async () => {
    const bram = await readyFor('bram');
    expect(idsOf(bram.ready).sort()).toEqual(['heron-panel.lay-up', 'petrel-panel.lay-up']);
    expect(bram.ready[0]).toMatchObject({
      claim: null,
      closes: null,
      planned: { crew: expect.arrayContaining([{ personId: 'bram', name: 'Bram' }]) as unknown },
    });
    expect(bram.waiting.map(({ taskId, why }) => [taskId, why])).toContainEqual([
      'petrel-panel.fair',
      'lay-up (Hatch of Petrel) is not done',
    ]);
    const fay = await readyFor('fay');
    expect(idsOf(fay.ready)).toEqual([]);
    expect(idsOf(fay.waiting).sort()).toEqual(['heron-panel.fair', 'petrel-panel.fair']);
    expect(idsOf((await readyFor('fay', '?whose=all')).ready)).toHaveLength(2);
  });

  test('the order is that of the published plan', async () => {
    const { ready } = await readyFor('ines');
    const start = z.object({ planned: z.object({ start: z.object({ at: z.string() }) }) });
    const starts = ready.map((task) => start.parse(task).planned.start.at);
    expect(starts).toHaveLength(2);
    expect(starts).toEqual([...starts].sort());
  });

  test('owners and strangers see none of it', async () => {
    expect((await call('odile', 'GET', '/yards/small/ready')).status).toBe(403);
    const token = await api.signIn('stranger@yard.test');
    expect((await api.rest('GET', '/yards/small/ready', { token })).status).toBe(404);
  });
});

describe('claims', () => {
  // Acceptance 5.
  test('of fifty at once one wins, and the others are told who did', async () => {
    const crowd: readonly Name[] = ['bram', ...moreBuilders];
    const answers = await Promise.all(
      Array.from({ length: 50 }, (_, k) => claimIt(crowd[k % 5], 'petrel-panel.lay-up')),
    );
    const won = answers.filter(({ status }) => status === 201);
    const lost = answers.filter(({ status }) => status === 409);
    expect([won.length, lost.length]).toEqual([1, 49]);
    const holder = z.object({ holder: z.object({ name: z.string() }) }).parse(won[0].body).holder;
    for (const { body } of lost) {
      expect(body).toMatchObject({ code: 'claim.taken' });
      expect(body.detail).toContain(holder.name);
    }
    const rows = await database.owner.claim.findMany({ where: { yardId: 'small' } });
    expect(rows).toHaveLength(1);
    const events = { yardId: 'small', kind: 'task-claimed' };
    expect(await database.owner.event.count({ where: events })).toBe(1);
    expect((await act('ines', won[0], 'release')).body).toMatchObject({ status: 'released' });
  });

  test('the crew has to fit: its skill, its size, its people', async () => {
    const lacking = await claimIt('fay', 'petrel-panel.lay-up');
    expect(lacking).toMatchObject({
      status: 422,
      body: { code: 'claim.crew', detail: 'fay has not the skill Laminating' },
    });
    const crowded = await claimIt('ines', 'petrel-panel.lay-up', {
      crew: ['bram', 'anke', 'cato'],
    });
    expect(crowded).toMatchObject({
      status: 422,
      body: { detail: '"lay-up" takes 1 to 2, not 3' },
    });
    const nobody = await claimIt('ines', 'petrel-panel.lay-up', { crew: ['bram', 'nobody'] });
    expect(nobody).toMatchObject({ status: 422, body: { errors: [{ path: 'crew[1]' }] } });
    expect((await claimIt('bram', 'petrel-panel.lay-up', { crew: ['anke'] })).status).toBe(403);
    expect(await database.owner.claim.count({ where: { status: 'open' } })).toBe(0);
  });

  test('what is not ready is refused with the reason, and nothing is left behind', async () => {
    expect(await claimIt('fay', 'petrel-panel.fair')).toMatchObject({
      status: 409,
      body: {
        code: 'claim.not-ready',
        detail: 'The task is not ready: lay-up (Hatch of Petrel) is not done.',
      },
    });
    expect((await claimIt('bram', 'no-such-task')).status).toBe(404);
    expect(await database.owner.claim.count({ where: { status: 'open' } })).toBe(0);
  });

  test('a repeated command with its key is one claim', async () => {
    const token = tokens.get('bram') ?? '';
    const sending = { token, headers: { 'idempotency-key': 'claim-1' } };
    const path = '/yards/small/tasks/petrel-panel.lay-up/claims';
    const first = await api.rest('POST', path, sending);
    const second = await api.rest('POST', path, sending);
    expect([first.status, idOf(second)]).toEqual([201, idOf(first)]);
    expect((await act('anke', first, 'start')).status).toBe(403);
    expect((await act('bram', first, 'release')).status).toBe(200);
    expect(await act('bram', first, 'start')).toMatchObject({
      status: 409,
      body: { code: 'claim.state' },
    });
  });

  test('the film is laid, cures from its real end, and opens what follows', async () => {
    const claim = await claimIt('bram', 'petrel-panel.lay-up', { crew: ['bram', 'anke'] });
    expect(claim).toMatchObject({ status: 201, body: { boat: 'Petrel', crew: [{}, {}] } });
    expect(await act('bram', claim, 'finish')).toMatchObject({ body: { code: 'claim.state' } });
    const begun = await act('bram', claim, 'start', { at: minutesAgo(3000) });
    expect(begun).toMatchObject({ status: 200, body: { status: 'working' } });
    const waiting = async (): Promise<string | undefined> =>
      (await readyFor('fay')).waiting.find(({ taskId }) => taskId === 'petrel-panel.fair')?.why;
    expect(await waiting()).toBe('lay-up (Hatch of Petrel) is still being done');

    // Resin is on the part: it cannot be put back. And nobody is at two tasks.
    expect(await act('bram', claim, 'release')).toMatchObject({ body: { code: 'claim.state' } });
    const other = await claimIt('anke', 'heron-panel.lay-up');
    expect(await act('anke', other, 'start')).toMatchObject({
      status: 409,
      body: { code: 'claim.state', detail: 'anke is at work on "lay-up".' },
    });
    expect((await act('anke', other, 'release')).status).toBe(200);

    const future = { at: new Date(Math.ceil(Date.now() / 60_000 + 60) * 60_000).toISOString() };
    expect(await act('bram', claim, 'finish', future)).toMatchObject({
      status: 422,
      body: { errors: [{ path: 'at' }] },
    });
    const at = minutesAgo(30);
    const over = await act('anke', claim, 'finish', { at });
    expect(over).toMatchObject({ status: 200, body: { status: 'finished' } });
    // Sandable after 900 minutes at 25 °C, 2,400 at 10 °C: not half an hour after, at 20 °C.
    expect(await waiting()).toMatch(/^lay-up .* is not .* yet, but on /);
    const stored = await database.owner.task.findFirst({ where: { id: 'petrel-panel.lay-up' } });
    expect(stored).toMatchObject({ state: 'done', finishedAt: new Date(at) });

    // The same film, laid two days ago, is open.
    const longAgo = new Date(minutesAgo(2900));
    await database.owner.task.updateMany({
      where: { id: 'petrel-panel.lay-up' },
      data: { finishedAt: longAgo },
    });
    await planted(database, 'small');
    expect(idsOf((await readyFor('fay')).ready)).toEqual(['petrel-panel.fair']);
  });

  test('dry work may be put back, and is as if it had never begun', async () => {
    const claim = await claimIt('fay', 'petrel-panel.fair');
    expect((await act('fay', claim, 'start')).body).toMatchObject({ status: 'working' });
    expect((await act('fay', claim, 'release')).body).toMatchObject({ status: 'released' });
    const stored = await database.owner.task.findFirst({
      where: { id: 'petrel-panel.fair' },
      include: { crew: true },
    });
    expect(stored).toMatchObject({ state: 'waiting', startedAt: null, crew: [] });
    const mine = await call('fay', 'GET', '/yards/small/claims?mine&status=released');
    expect(mine.body).toMatchObject({ items: [{ task: 'fair', holder: { id: 'fay' } }] });
  });

  test('the list of claims has pages', async () => {
    const seen: unknown[] = [];
    let after: unknown = null;
    do {
      const cursor = typeof after === 'string' ? `&after=${after}` : '';
      const { body } = await call('ines', 'GET', `/yards/small/claims?first=2${cursor}`);
      const page = z.object({ items: z.array(z.object({ id: z.string() })) }).parse(body);
      seen.push(...page.items.map(({ id }) => id));
      after = body.nextCursor;
    } while (after !== null);
    expect(new Set(seen).size).toBe(seen.length);
    expect(seen).toHaveLength(await database.owner.claim.count());
    expect((await call('ines', 'GET', '/yards/small/claims?after=x')).status).toBe(422);
  });

  test('GraphQL does the same', async () => {
    const token = tokens.get('fay') ?? '';
    const ask = (query: string) => api.graphql(query, {}, { token });
    const list = await ask(
      '{ ready(yardId: "small", whose: MINE) { ready { taskId claim { id } } } }',
    );
    expect(list.body).toMatchObject({
      data: { ready: { ready: [{ taskId: 'petrel-panel.fair', claim: null }] } },
    });
    const fields = 'id status task crew { name }';
    const made = await ask(
      `mutation { claimTask(yardId: "small", taskId: "petrel-panel.fair", input: {}) { ${fields} } }`,
    );
    const shape = z.object({ data: z.object({ claimTask: z.looseObject({ id: z.string() }) }) });
    const { id } = shape.parse(made.body).data.claimTask;
    const again = await ask(
      `mutation { claimTask(yardId: "small", taskId: "petrel-panel.fair", input: {}) { id } }`,
    );
    expect(again.body).toMatchObject({ errors: [{ extensions: { code: 'claim.taken' } }] });
    const steps = `a: startClaim(yardId: "small", id: "${id}", input: {}) { status }
      b: finishClaim(yardId: "small", id: "${id}", input: {}) { status }`;
    expect((await ask(`mutation { ${steps} }`)).body).toEqual({
      data: { a: { status: 'WORKING' }, b: { status: 'FINISHED' } },
    });
    const mine = await ask('{ claims(yardId: "small", mine: true) { items { status } } }');
    expect(mine.body).toMatchObject({ data: { claims: { items: [{ status: 'FINISHED' }, {}] } } });
  });
});

describe('an owner', () => {
  test('sees the own boats, without people and without other boats', async () => {
    await publishPlan(database, 'small');
    const finished = await database.owner.task.findFirstOrThrow({
      where: { stepId: 'fair', state: 'done' },
    });
    const date = dayOf(finished.finishedAt ?? new Date(NaN));
    const { status, body } = await call('odile', 'GET', '/yards/small/my-boats');
    expect(status).toBe(200);
    expect(body).toMatchObject({
      items: [{ id: 'petrel', refits: [{ tasksDone: 2, lateMinutes: 0 }] }],
    });
    const text = JSON.stringify(body);
    expect(text).not.toMatch(/heron/i);
    for (const { name } of await database.owner.member.findMany({ where: { yardId: 'small' } }))
      expect(text).not.toContain(name);
    const shape = z.object({
      items: z.array(
        z.object({
          refits: z.array(
            z.object({
              plannedFinish: z.object({ at: z.string() }),
              words: z.string(),
              thisWeek: z.array(z.looseObject({})),
            }),
          ),
        }),
      ),
    });
    const [refit] = shape.parse(body).items[0].refits;
    expect(refit.words).toMatch(/^Promised for .*; planned to be finished .*, in time\.$/);
    expect(refit.thisWeek).toContainEqual(
      expect.objectContaining({ date, task: 'fair', state: 'done' }),
    );
  });

  test("does not find another's boat, nor one of nobody", async () => {
    expect((await call('odile', 'GET', '/yards/small/my-boats/petrel')).status).toBe(200);
    expect((await call('odile', 'GET', '/yards/small/my-boats/heron')).status).toBe(404);
    expect((await call('odile', 'GET', '/yards/small/my-boats/nothing')).status).toBe(404);
    expect((await call('bram', 'GET', '/yards/small/my-boats')).status).toBe(403);
    const token = tokens.get('otto') ?? '';
    const asked = await api.graphql(
      '{ myBoats(yardId: "small") { items { id refits { plannedFinish { at } thisWeek { words } } } } a: myBoat(yardId: "small", id: "heron") { name } }',
      {},
      { token },
    );
    expect(asked.body).toMatchObject({
      data: { myBoats: { items: [{ id: 'heron' }] }, a: { name: 'Heron' } },
    });
    const other = await api.graphql(
      '{ myBoat(yardId: "small", id: "petrel") { name } }',
      {},
      { token },
    );
    expect(other.body).toMatchObject({ errors: [{ extensions: { code: 'record.missing' } }] });
  });
});
