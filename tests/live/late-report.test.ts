import type { PgBoss } from 'pg-boss';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { toLocal } from '#calendar/local-time.ts';
import { inYard, service } from '#persistence/client.ts';
import { verifyReplay } from '#persistence/live/replay.ts';
import { YardStates } from '#persistence/live/yard-states.ts';
import { createBoss } from '#persistence/queue/boss.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { missedWindows } from '../../apps/worker/src/follower/missed-windows.ts';
import { type Answer, testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { startWorkerProcess } from '../support/processes.ts';
import { moreBuilders, twoBoats } from '../support/two-boats.ts';
import { until } from '../support/until.ts';

/**
 * Whoever coats in a dead spot tells it hours later; by then the window has shut, and the service has
 * added the preparation that the coat would need. What was done in time needs none.
 */
const database = testDatabase();
const api = testApi(database);
const names = ['ines', 'bram', ...moreBuilders] as const;
type Name = (typeof names)[number];
const tokens = new Map<Name, string>();
let states: YardStates;
let boss: PgBoss;
const minuteMs = 60_000;

type Procedure = NonNullable<YardInput['procedures']>[number];

/** A wipe is good for an hour; so is the bond for some 18 hours at 20 °C, from two to three hours on. */
function windows(panel: Procedure): Procedure[] {
  const [layUp, fair] = panel.steps;
  const effort = { fixed: 20, perM2: 0, source: 'invented' };
  const link = { id: 'next', opens: { kind: 'after', minutes: 0 } } as const;
  return [
    {
      ...panel,
      id: 'wiped',
      steps: [
        { ...fair, id: 'wipe', name: 'wipe', air: 'clean', tools: [], effort },
        { ...layUp, id: 'coat', name: 'coat', effort },
      ],
      links: [{ ...link, from: 'wipe', to: 'coat', closes: { kind: 'after', minutes: 60 } }],
    },
    {
      ...panel,
      id: 'bonded',
      steps: [
        { ...layUp, id: 'first', name: 'first coat', effort },
        { ...layUp, id: 'coat', name: 'coat', effort },
      ],
      links: [
        {
          ...link,
          from: 'first',
          to: 'coat',
          opens: { kind: 'milestone', milestone: 'bond-opens' },
          closes: { kind: 'milestone', milestone: 'bond-closes' },
        },
      ],
    },
  ];
}

const wipedJobs = ['rings', 'shut', 'begun', 'later', 'direct', 'race'] as const;

function yardOf(today: string): YardInput {
  const yard = twoBoats(today);
  const [panel] = yard.procedures ?? [];
  const [petrel, heron] = yard.boats ?? [];
  const part = (id: string, procedure: string) => ({
    id: `${id}-part`,
    name: `Panel ${id}`,
    space: 'bay',
    areaM2: 2,
    jobs: [{ id, procedure }],
  });
  const parts = [...wipedJobs.map((id) => part(id, 'wiped')), part('bond', 'bonded')];
  const refits = petrel.refits?.map((refit) => ({ ...refit, parts }));
  return {
    ...yard,
    spaces: yard.spaces?.map((space) => ({ ...space, room: 12 })),
    procedures: [panel, ...windows(panel)],
    boats: [{ ...petrel, refits }, heron],
  };
}

beforeAll(async () => {
  const today = toLocal(Math.floor(Date.now() / minuteMs), 'Europe/London').date;
  for (const name of names) await api.addAccount(`${name}@yard.test`);
  for (const name of names) tokens.set(name, await api.signIn(`${name}@yard.test`));
  const { status, body } = await call('ines', 'POST', '/yards', yardOf(today));
  if (status !== 201) throw new Error(JSON.stringify(body));
  await api.join('small');
  states = new YardStates(database.serviceUrl);
  boss = createBoss(database.serviceUrl, { role: 'sender', onError: () => undefined });
});
afterAll(() => states.close());

function call(who: Name, method: string, path: string, body?: unknown): Promise<Answer> {
  const token = tokens.get(who) ?? '';
  return api.rest(method, path, { token, ...(body === undefined ? {} : { body }) });
}
const ago = (minutes: number): string =>
  new Date(Math.floor(Date.now() / minuteMs - minutes) * minuteMs).toISOString();

type Step = readonly [kind: string, ago: number];
const takenSchema = z.object({
  items: z.array(
    z.object({
      outcome: z.string(),
      reasons: z.array(z.object({ code: z.string(), message: z.string() })),
    }),
  ),
});
/** What came of each, with the moment that was sent. */
type Taken = (z.output<typeof takenSchema>['items'][number] & { readonly at: string })[];
let sent = 0;

/** What a phone reports of one task, in one call. */
async function send(who: Name, taskId: string, steps: readonly Step[]): Promise<Taken> {
  const reports = steps.map(([kind, minutes]) => ({
    key: `${kind}-${String((sent += 1))}`,
    at: ago(minutes),
    command: { kind, taskId },
  }));
  const { status, body } = await call(who, 'POST', '/yards/small/reports', { reports });
  expect([status, body.detail]).toEqual([200, undefined]);
  const { items } = takenSchema.parse(body);
  return items.map((item, k) => ({ ...item, at: reports[k].at }));
}
const outcomes = (taken: Taken): string[] => taken.map(({ outcome }) => outcome);
const wholly = (from: number, to: number): Step[] => [
  ['claim', from + 5],
  ['start', from],
  ['finish', to],
];

/** What of it was done in time and told at once. */
async function wiped(who: Name, job: string): Promise<void> {
  expect(outcomes(await send(who, `${job}.wipe`, wholly(400, 390)))).toEqual([
    'done',
    'done',
    'done',
  ]);
}
const visit = (): Promise<void> =>
  inYard(database.service, service('small'), (tx) =>
    missedWindows({ tx, yardId: 'small', now: new Date(), events: [], states, boss }),
  );
/** The work that was added for a task, and what the states of that are. */
const added = async (taskId: string): Promise<string[][]> => {
  const reworks = await database.owner.rework.findMany({
    where: { yardId: 'small', taskId },
    orderBy: { madeAt: 'asc' },
    include: { tasks: { orderBy: { position: 'asc' } } },
  });
  return reworks.map(({ tasks }) => tasks.map(({ state }) => state));
};
const preparation = async (taskId: string): Promise<string> => {
  const where = { yardId: 'small', rework: { taskId }, state: 'waiting' } as const;
  return (await database.owner.task.findFirstOrThrow({ where })).id;
};
const kindsOf = async (subjectId: string): Promise<string[]> => {
  const where = { yardId: 'small', subject: 'task', subjectId };
  const events = await database.owner.event.findMany({ where, orderBy: { id: 'asc' } });
  return events.map(({ kind }) => kind);
};
const stored = (id: string) => database.owner.task.findFirstOrThrow({ where: { id } });
const linksInto = async (toTaskId: string): Promise<object[]> => {
  const where = { yardId: 'small', toTaskId };
  const links = await database.owner.taskLink.findMany({ where, orderBy: { id: 'asc' } });
  return links.map(({ position: _, ...link }) => link);
};
const differences = (): Promise<readonly string[]> =>
  inYard(database.service, service('small'), (tx) => verifyReplay(tx, 'small'));

describe('work that was begun in time and is reported late', () => {
  test('lands, whatever a worker has made of the window meanwhile, and its alarm is void', async () => {
    const coat = 'rings.coat';
    const before = await linksInto(coat);
    /** The moments of start and finish. */
    const told: string[] = [];
    const worker = await startWorkerProcess(database.serviceUrl);
    const alarms = async (): Promise<string[]> => {
      const where = { yardId: 'small', taskId: coat, kind: 'missed' };
      const rows = await database.owner.alarm.findMany({ where });
      return rows.filter(({ rungAt }) => rungAt !== null).map(({ state }) => state);
    };
    try {
      await wiped('bram', 'rings');
      await until(async () => (await alarms()).includes('rung'));
      expect(await added(coat)).toEqual([['waiting']]);
      const taken = await send('bram', coat, wholly(370, 345));
      expect([outcomes(taken), taken.flatMap(({ reasons }) => reasons)]).toEqual([
        ['done', 'done', 'done'],
        [],
      ]);
      told.push(...taken.slice(1).map(({ at }) => at));
      await until(async () => (await alarms()).every((state) => state === 'void'));
    } finally {
      await worker.end('SIGTERM');
    }
    const { state, startedAt, finishedAt } = await stored(coat);
    expect([state, startedAt?.toISOString(), finishedAt?.toISOString()]).toEqual(['done', ...told]);
    // Once, and not again for what is in hand.
    expect(await kindsOf(coat)).toEqual([
      'rework-made',
      'rework-undone',
      'task-claimed',
      'task-started',
      'task-finished',
    ]);
    const undone = await database.owner.event.findFirstOrThrow({
      where: { kind: 'rework-undone', subjectId: coat },
    });
    expect(undone).toMatchObject({
      byMemberId: 'bram',
      payload: { words: expect.stringContaining('taken in hand in time') as unknown },
    });
    expect(await added(coat)).toEqual([['dropped']]);
    expect(await linksInto(coat)).toEqual(before);
    expect(await differences()).toEqual([]);
  });

  test('of a film that would have been keyed', async () => {
    expect(outcomes(await send('anke', 'bond.first', wholly(3030, 3000)))).toEqual([
      'done',
      'done',
      'done',
    ]);
    const before = await linksInto('bond.coat');
    await visit();
    expect((await added('bond.coat')).flat().length).toBeGreaterThan(0);
    const taken = await send('anke', 'bond.coat', wholly(2600, 2570));
    expect([outcomes(taken), taken.flatMap(({ reasons }) => reasons)]).toEqual([
      ['done', 'done', 'done'],
      [],
    ]);
    expect(new Set((await added('bond.coat')).flat())).toEqual(new Set(['dropped']));
    expect(await linksInto('bond.coat')).toEqual(before);
    expect(await differences()).toEqual([]);
  });

  test('by the commands themselves: held for whoever claimed it late, and prepared when given back', async () => {
    const coat = 'direct.coat';
    await wiped('cato', 'direct');
    await visit();
    const held = await call('cato', 'POST', `/yards/small/tasks/${coat}/claims`, { at: ago(372) });
    expect(held).toMatchObject({ status: 201, body: { status: 'open' } });
    // The rest is told from now on.
    expect(Date.parse(z.string().parse(held.body.lapsesAt))).toBeGreaterThan(Date.now());
    await visit();
    expect(await added(coat)).toEqual([['dropped']]);
    const path = `/yards/small/claims/${z.string().parse(held.body.id)}`;
    expect((await call('cato', 'POST', `${path}/release`)).status).toBe(200);
    await visit();
    expect(await added(coat)).toEqual([['dropped'], ['waiting']]);
    const again = await call('cato', 'POST', `/yards/small/tasks/${coat}/claims`, { at: ago(371) });
    expect(again.status).toBe(201);
    const mine = `/yards/small/claims/${z.string().parse(again.body.id)}`;
    expect((await call('cato', 'POST', `${mine}/start`, { at: ago(370) })).body).toMatchObject({
      status: 'working',
    });
    await visit();
    expect(await added(coat)).toEqual([['dropped'], ['dropped']]);
    expect((await call('cato', 'POST', `${mine}/finish`, { at: ago(345) })).status).toBe(200);
    expect(await differences()).toEqual([]);
  });

  test('of a claim that was known and lapsed before the window shut', async () => {
    const coat = 'later.coat';
    await wiped('dirk', 'later');
    const held = await call('dirk', 'POST', `/yards/small/tasks/${coat}/claims`, { at: ago(385) });
    expect(held.status).toBe(201);
    await visit();
    expect(await added(coat)).toEqual([['waiting']]);
    const path = `/yards/small/claims/${z.string().parse(held.body.id)}`;
    expect((await call('dirk', 'POST', `${path}/start`, { at: ago(380) })).body).toMatchObject({
      status: 'working',
    });
    expect(await added(coat)).toEqual([['dropped']]);
    expect((await call('dirk', 'POST', `${path}/finish`, { at: ago(350) })).status).toBe(200);
    expect(await differences()).toEqual([]);
  });
});

describe('the preparation stays', () => {
  test('where the work was begun after the window had shut', async () => {
    const coat = 'shut.coat';
    await wiped('elin', 'shut');
    await visit();
    const before = await linksInto(coat);
    const [claimed] = await send('elin', coat, wholly(200, 170));
    expect(claimed).toMatchObject({ outcome: 'held', reasons: [{ code: 'claim.not-ready' }] });
    expect(claimed.reasons[0].message).toContain('too late');
    const now = await call('elin', 'POST', `/yards/small/tasks/${coat}/claims`);
    expect(now.body).toMatchObject({ code: 'claim.not-ready' });
    expect(now.body.detail).toContain(
      'Vacuum and wipe again just before the coat (Panel shut) is not done',
    );
    expect(await added(coat)).toEqual([['waiting']]);
    expect(await linksInto(coat)).toEqual(before);
    expect(await kindsOf(coat)).toEqual(['rework-made']);
    expect(await differences()).toEqual([]);
  });

  test('where somebody has begun it, or has it in hand', async () => {
    const coat = 'begun.coat';
    await wiped('elin', 'begun');
    await visit();
    const wipe = await preparation(coat);
    const held = await call('elin', 'POST', `/yards/small/tasks/${wipe}/claims`);
    expect(held.status).toBe(201);
    const late = await send('anke', coat, wholly(370, 345));
    expect(outcomes(late)).toEqual(['held', 'held', 'held']);
    expect(late[0].reasons[0].code).toBe('claim.not-ready');
    const path = `/yards/small/claims/${z.string().parse(held.body.id)}`;
    expect((await call('elin', 'POST', `${path}/start`)).status).toBe(200);
    const direct = await call('bram', 'POST', `/yards/small/tasks/${coat}/claims`, {
      at: ago(372),
    });
    expect(direct.body).toMatchObject({ code: 'claim.not-ready' });
    expect(await added(coat)).toEqual([['working']]);
    expect(await differences()).toEqual([]);
    // It was needless after all; what was held is tried again, and lands.
    expect((await call('elin', 'POST', `${path}/release`)).status).toBe(200);
    await until(async () => (await stored(coat)).state === 'done');
    expect(await added(coat)).toEqual([['dropped']]);
    expect(await differences()).toEqual([]);
  });
});

test('who takes the preparation and who tells late at the same time: one of them is served', async () => {
  const coat = 'race.coat';
  await wiped('bram', 'race');
  await visit();
  const wipe = await preparation(coat);
  const answers = await Promise.all([
    call('anke', 'POST', `/yards/small/tasks/${coat}/claims`, { at: ago(372) }),
    call('bram', 'POST', `/yards/small/tasks/${wipe}/claims`),
    call('cato', 'POST', `/yards/small/tasks/${coat}/claims`, { at: ago(371) }),
  ]);
  const statuses = answers.map(({ status }) => status);
  expect(statuses.filter((status) => status === 201)).toHaveLength(1);
  expect(statuses.filter((status) => status >= 500)).toEqual([]);
  expect(await differences()).toEqual([]);
});
