import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { toLocal } from '#calendar/local-time.ts';
import { inYard, service } from '#persistence/client.ts';
import { verifyReplay } from '#persistence/live/replay.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { type Answer, faultsOf, testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { planted } from '../support/planted.ts';
import { publishPlan } from '../support/published-plan.ts';
import { moreBuilders, twoBoats } from '../support/two-boats.ts';

/** A task's life as crews report it: each report, its guard, its event and how it is taken back. */
const database = testDatabase();
const api = testApi(database);

const names = ['ines', 'bram', 'fay', ...moreBuilders] as const;
type Name = (typeof names)[number];
const tokens = new Map<Name, string>();
const [petrel, heron, locker] = ['petrel-panel', 'heron-panel', 'heron-locker'];

const oneBatch = {
  material: 'quick',
  oneBatch: true,
  quantity: { kind: 'coat', gramsPerM2: 50, coats: 1, wastePercent: 0 },
} as const;

/** A third panel, on which a batch is spread that lasts as long as two need for it; Dirk has gone home. */
function yard(): YardInput {
  const today = toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date;
  const made = twoBoats(today);
  const [panel] = made.procedures ?? [];
  const [epoxy] = made.materials ?? [];
  const quick = {
    ...epoxy,
    id: 'quick',
    name: 'Quick epoxy',
    milestones: epoxy.milestones?.map((one) =>
      one.milestone === 'pot-life'
        ? { ...one, rows: [10, 25].map((celsius) => ({ celsius, minutes: 100 })) }
        : one,
    ),
  };
  const part = {
    id: 'heron-locker-lid',
    name: 'Locker lid of Heron',
    // Out of the way of the dust in the bay.
    space: 'hull',
    areaM2: 2,
    jobs: [
      { id: locker, procedure: 'panel' },
      { id: 'glue', procedure: 'glue', after: [locker] },
    ],
  };
  return {
    ...made,
    people: made.people?.map((one) =>
      one.id === 'dirk' ? { ...one, exceptions: [{ date: today, shifts: [] }] } : one,
    ),
    materials: [epoxy, quick],
    procedures: [
      panel,
      {
        ...panel,
        id: 'glue',
        name: 'Glue',
        steps: [{ ...panel.steps[0], id: 'glue', name: 'glue', ...oneBatch }],
        links: [],
      },
    ],
    boats: made.boats?.map((boat) =>
      boat.id === 'heron'
        ? {
            ...boat,
            refits: boat.refits?.map((refit) => ({
              ...refit,
              parts: [...(refit.parts ?? []), part],
            })),
          }
        : boat,
    ),
  };
}

beforeAll(async () => {
  for (const name of names) await api.addAccount(`${name}@yard.test`);
  for (const name of names) tokens.set(name, await api.signIn(`${name}@yard.test`));
  const { status, body } = await call('ines', 'POST', '/yards', yard());
  if (status !== 201) throw new Error(JSON.stringify(body));
  await api.join('small');
});

function call(who: Name, method: string, path: string, body?: unknown): Promise<Answer> {
  const token = tokens.get(who) ?? '';
  return api.rest(method, path, { token, ...(body === undefined ? {} : { body }) });
}
const claim = (who: Name, task: string, body?: unknown): Promise<Answer> =>
  call(who, 'POST', `/yards/small/tasks/${task}/claims`, body);
const idOf = ({ body }: Answer): string => z.string().parse(body.id);
const act = (who: Name, held: Answer, verb: string, body?: unknown): Promise<Answer> =>
  call(who, 'POST', `/yards/small/claims/${idOf(held)}/${verb}`, body);
const undo = (who: Name, task: string): Promise<Answer> =>
  call(who, 'POST', `/yards/small/tasks/${task}/undo`);
const taskOf = async (task: string): Promise<Answer['body']> =>
  (await call('ines', 'GET', `/yards/small/tasks/${task}`)).body;

const ago = (minutes: number): string =>
  new Date(Math.floor(Date.now() / 60_000 - minutes) * 60_000).toISOString();

/** Claimed, begun and finished, days ago. */
async function laid(who: Name, task: string): Promise<void> {
  const held = await claim(who, task);
  expect((await act(who, held, 'start', { at: ago(4000) })).body).toMatchObject({
    status: 'working',
  });
  expect((await act(who, held, 'finish', { at: ago(3900) })).status).toBe(200);
}

const differences = (): Promise<readonly string[]> =>
  inYard(database.service, service('small'), (tx) => verifyReplay(tx, 'small'));
const kindsOf = async (task: string): Promise<string[]> =>
  (
    await database.owner.event.findMany({
      where: { yardId: 'small', subjectId: task },
      orderBy: { id: 'asc' },
    })
  ).map(({ kind }) => kind);

describe('work in pieces', () => {
  const fair = `${petrel}.fair`;

  test('is put aside with what is left of it, and the plan has the rest', async () => {
    expect(await taskOf(fair)).toMatchObject({ stands: 'waiting', opensAt: null });
    await laid('bram', `${petrel}.lay-up`);
    expect(await taskOf(fair)).toMatchObject({ stands: 'ready', why: null });
    const held = await claim('fay', fair);
    expect(await taskOf(fair)).toMatchObject({ stands: 'claimed', state: 'waiting' });
    // All of one minute, though the next may have begun by then.
    const [began, said, stopped] = [ago(60), ago(50), ago(20)];
    await act('fay', held, 'start', { at: began });
    const told = await act('fay', held, 'progress', { at: said, leftMinutes: 60 });
    expect(told.status).toBe(200);
    expect(await taskOf(fair)).toMatchObject({ leftMinutes: 60, stands: 'working' });
    // Half an hour at 60 builder-minutes: half of it, where nobody says otherwise.
    expect((await act('fay', held, 'pause', { at: stopped })).body).toMatchObject({
      status: 'paused',
    });
    expect(await taskOf(fair)).toMatchObject({
      state: 'paused',
      stands: 'paused',
      leftMinutes: 30,
      startedAt: began.replace('.000Z', 'Z'),
      finishedAt: null,
    });
    const sheet = await publishPlan(database, 'small');
    const planned = sheet.tasks.find(({ id }) => id === fair);
    const minutes = (planned?.segments ?? []).reduce(
      (sum, { start, finish }) => sum + (Date.parse(finish.at) - Date.parse(start.at)) / 60_000,
      0,
    );
    expect([minutes, planned?.crew]).toEqual([30, [{ personId: 'fay', name: 'fay' }]]);
    await planted(database, 'small');
    expect((await act('fay', held, 'finish')).body).toMatchObject({ code: 'claim.state' });
    expect((await act('fay', held, 'resume', { at: ago(10) })).status).toBe(200);
  });

  test('is given back half done, and goes on by somebody else', async () => {
    const held = (await call('fay', 'GET', '/yards/small/claims?mine&status=working')).body;
    const [{ id }] = z.object({ items: z.array(z.object({ id: z.string() })) }).parse(held).items;
    const back = await call('fay', 'POST', `/yards/small/claims/${id}/release`, {
      leftMinutes: 12,
    });
    expect(back).toMatchObject({ status: 200, body: { status: 'released' } });
    expect(await taskOf(fair)).toMatchObject({ state: 'paused', stands: 'ready', crew: [] });
    const next = await claim('bram', fair);
    expect((await act('bram', next, 'start')).status).toBe(200);
    expect((await act('bram', next, 'finish')).status).toBe(200);
    expect(await taskOf(fair)).toMatchObject({
      state: 'done',
      stands: 'done',
      leftMinutes: null,
      crew: expect.arrayContaining([{ id: 'fay', name: 'fay' }]) as unknown,
    });
    expect((await kindsOf(fair)).filter((kind) => kind !== 'task-claimed')).toEqual([
      'task-started',
      'task-progressed',
      'task-paused',
      'task-resumed',
      'task-released',
      'task-resumed',
      'task-finished',
    ]);
    expect(await differences()).toEqual([]);
  });

  test('wet work is done in one go', async () => {
    const held = await claim('bram', `${heron}.lay-up`);
    await act('bram', held, 'start');
    for (const verb of ['pause', 'release']) {
      expect(await act('bram', held, verb, { leftMinutes: 5 })).toMatchObject({
        status: 409,
        body: { code: 'claim.state' },
      });
    }
    expect((await undo('bram', `${heron}.lay-up`)).body).toMatchObject({ state: 'waiting' });
    expect((await act('bram', held, 'release')).status).toBe(200);
  });
});

describe('a wet start', () => {
  const layUp = `${heron}.lay-up`;

  test('past a shift is refused to a builder, and the foreman has it begun with a reason', async () => {
    const held = await claim('dirk', layUp);
    const refused = await act('dirk', held, 'start');
    expect(refused).toMatchObject({ status: 409, body: { code: 'work.unsafe-start' } });
    expect(refused.body.detail).toContain('dirk is not at work at');
    expect(faultsOf(refused.body)).toEqual([['crew', 'work.unsafe-start']]);
    const override = { reason: 'Dirk stays until it is laid' };
    expect((await act('dirk', held, 'start', { override })).status).toBe(403);
    expect((await act('ines', held, 'start', { override: { reason: ' ' } })).status).toBe(422);
    expect(await act('ines', held, 'start', { override })).toMatchObject({
      status: 200,
      body: { status: 'working', override: { ...override, byId: 'ines' } },
    });
    expect((await act('ines', held, 'finish')).status).toBe(200);
  });

  test('of a batch that goes off before it is spread is refused', async () => {
    await laid('cato', `${locker}.lay-up`);
    const sanded = await claim('fay', `${locker}.fair`);
    expect((await act('fay', sanded, 'start', { at: ago(90) })).status).toBe(200);
    expect((await act('fay', sanded, 'finish', { at: ago(40) })).status).toBe(200);
    const held = await claim('bram', 'glue.glue');
    const refused = await act('bram', held, 'start');
    expect(refused).toMatchObject({ status: 409, body: { code: 'work.unsafe-start' } });
    // 30 min and 40 for each m² of the part's 2 m², by one of the nominal rate.
    expect(refused.body.detail).toMatch(/lasts \d+ min at 14 °C, and this crew takes 110 min/);
    expect((await act('anke', held, 'join')).status).toBe(200);
    expect((await act('bram', held, 'start')).body).toMatchObject({ status: 'working' });
    expect(await differences()).toEqual([]);
  });
});
