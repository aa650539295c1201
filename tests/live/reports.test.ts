import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { toLocal } from '#calendar/local-time.ts';
import { inYard, service } from '#persistence/client.ts';
import { passing } from '../../apps/api/src/features/reports/reasons.ts';
import { heldIds } from '../../apps/api/src/features/reports/reports.store.ts';
import { type Answer, faultsOf, testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { publishPlan } from '../support/published-plan.ts';
import { roundTheClock } from '../support/round-the-clock.ts';
import { moreBuilders, twoBoats } from '../support/two-boats.ts';
import { until } from '../support/until.ts';

const database = testDatabase();
const api = testApi(database);
const names = ['ines', 'bram', 'odile', 'fay', ...moreBuilders] as const;
type Name = (typeof names)[number];
const tokens = new Map<Name, string>();
const minuteMs = 60_000;

beforeAll(async () => {
  const today = toLocal(Math.floor(Date.now() / minuteMs), 'Europe/London').date;
  for (const name of names) await api.addAccount(`${name}@yard.test`);
  for (const name of names) tokens.set(name, await api.signIn(`${name}@yard.test`));
  const yard = roundTheClock(twoBoats(today));
  const [, heron] = yard.boats ?? [];
  // One more panel of the same kind, and so two tasks more.
  heron.refits?.[0].parts?.push({
    id: 'heron-locker',
    name: 'Locker of Heron',
    space: 'hull',
    areaM2: 2,
    jobs: [{ id: 'locker', procedure: 'panel' }],
  });
  const { status, body } = await call('ines', 'POST', '/yards', yard);
  if (status !== 201) throw new Error(JSON.stringify(body));
  await api.join('small');
  await publishPlan(database, 'small');
});

function call(who: Name, method: string, path: string, body?: unknown): Promise<Answer> {
  const token = tokens.get(who) ?? '';
  return api.rest(method, path, { token, ...(body === undefined ? {} : { body }) });
}

const takenSchema = z.object({
  items: z.array(
    z.object({
      key: z.string().nullable(),
      outcome: z.string(),
      reasons: z.array(z.object({ code: z.string(), path: z.string(), message: z.string() })),
      report: z.looseObject({ id: z.string(), at: z.string() }).nullable(),
    }),
  ),
});
type Taken = z.output<typeof takenSchema>['items'][number];

interface Told {
  readonly key: string;
  /** Minutes before now by the service's clock. */
  readonly ago: number;
  readonly command: object;
}

/** What a phone sends whose clock is so many minutes ahead: told twice, a moment is the same. */
const queueOf = (reports: readonly Told[], ahead = 0) => {
  const now = Date.now();
  const shown = (ago: number): string => new Date(now + (ahead - ago) * minuteMs).toISOString();
  return {
    sentAt: shown(0),
    reports: reports.map(({ key, ago, command }) => ({ key, at: shown(ago), command })),
  };
};

async function send(who: Name, queue: object): Promise<Taken[]> {
  const { status, body } = await call(who, 'POST', '/yards/small/reports', queue);
  expect([status, body.detail]).toEqual([200, undefined]);
  return takenSchema.parse(body).items;
}
const outcomes = (taken: readonly Taken[]): string[] => taken.map(({ outcome }) => outcome);
const reportOf = async (who: Name, key: string): Promise<Record<string, unknown>> => {
  const { id } = await database.owner.report.findFirstOrThrow({ where: { memberId: who, key } });
  return (await call('ines', 'GET', `/yards/small/reports/${id}`)).body;
};
const eventsOf = async (subjectId: string): Promise<string[]> => {
  const events = await database.owner.event.findMany({
    where: { yardId: 'small', subject: 'task', subjectId },
    orderBy: { id: 'asc' },
  });
  return events.map(({ kind }) => kind);
};
const storedTask = (id: string) => database.owner.task.findFirstOrThrow({ where: { id } });
const minutesSince = (at: Date | null): number => (Date.now() - (at?.getTime() ?? NaN)) / minuteMs;

const layUp = 'petrel-panel.lay-up';
const fair = 'petrel-panel.fair';
const other = 'heron-panel.lay-up';
const locker = 'locker.lay-up';

describe('a phone that was in a dead spot', () => {
  const day = (): ReturnType<typeof queueOf> =>
    queueOf(
      [
        { key: 'b3', ago: 3000, command: { kind: 'finish', taskId: layUp } },
        { key: 'b1', ago: 3070, command: { kind: 'claim', taskId: layUp } },
        { key: 'b2', ago: 3060, command: { kind: 'start', taskId: layUp } },
      ],
      10,
    );
  let sent: ReturnType<typeof queueOf>;

  test('waits with what it cannot know: held until the work before it is told', async () => {
    // Fay sands a film whose laying nobody has told yet.
    const taken = await send(
      'fay',
      queueOf([
        { key: 'f1', ago: 31, command: { kind: 'claim', taskId: fair } },
        { key: 'f2', ago: 30, command: { kind: 'start', taskId: fair } },
      ]),
    );
    expect(outcomes(taken)).toEqual(['held', 'held']);
    expect(taken[0].reasons[0]).toMatchObject({
      code: 'claim.not-ready',
      message: expect.stringContaining('lay-up') as unknown,
    });
    expect((await storedTask(fair)).state).toBe('waiting');
    const page = await call('ines', 'GET', '/yards/small/reports?outcome=held');
    expect(page.body.items).toHaveLength(2);
  });

  test('with a clock ten minutes ahead, sent out of order: done in order and at the real times', async () => {
    sent = day();
    const taken = await send('bram', sent);
    expect(outcomes(taken)).toEqual(['done', 'done', 'done']);
    expect(await eventsOf(layUp)).toEqual(['task-claimed', 'task-started', 'task-finished']);
    const { state, startedAt, finishedAt } = await storedTask(layUp);
    expect(state).toBe('done');
    expect(Math.abs(minutesSince(startedAt) - 3060)).toBeLessThan(2);
    expect(Math.abs(minutesSince(finishedAt) - 3000)).toBeLessThan(2);
  });

  test('has freed by that what was held', async () => {
    const claimed = await reportOf('fay', 'f1');
    const started = await reportOf('fay', 'f2');
    expect([claimed.outcome, started.outcome, started.reasons]).toEqual(['done', 'done', []]);
    const { state, startedAt } = await storedTask(fair);
    expect(state).toBe('working');
    expect(Math.abs(minutesSince(startedAt) - 30)).toBeLessThan(2);
  });

  test('is answered alike however often it sends, and nothing is done twice', async () => {
    const before = await database.owner.event.count({ where: { yardId: 'small' } });
    const answers = await Promise.all([1, 2, 3].map(() => send('bram', sent)));
    for (const taken of answers) {
      expect(outcomes(taken)).toEqual(['done', 'done', 'done']);
      expect(taken).toEqual(answers[0]);
    }
    expect(await database.owner.event.count({ where: { yardId: 'small' } })).toBe(before);
    expect(await database.owner.report.count({ where: { memberId: 'bram' } })).toBe(3);
  });

  test('that sends all at once, twice over and with a clock behind, does each once', async () => {
    const queue = queueOf(
      [
        { key: 'a1', ago: 25, command: { kind: 'claim', taskId: other } },
        { key: 'a2', ago: 20, command: { kind: 'start', taskId: other } },
        { key: 'a1', ago: 25, command: { kind: 'claim', taskId: other } },
      ],
      -10,
    );
    const [one, two] = await Promise.all([send('anke', queue), send('anke', queue)]);
    expect(outcomes(one)).toEqual(['done', 'done', 'done']);
    expect(two).toEqual(one);
    expect(await eventsOf(other)).toEqual(['task-claimed', 'task-started']);
    expect(Math.abs(minutesSince((await storedTask(other)).startedAt) - 20)).toBeLessThan(2);
  });

  test('is refused a key that it has used for another report, and no other one with it', async () => {
    const taken = await send(
      'anke',
      queueOf([
        { key: 'a1', ago: 5, command: { kind: 'finish', taskId: other } },
        { key: 'a3', ago: 4, command: { kind: 'finish', taskId: other } },
      ]),
    );
    expect(outcomes(taken)).toEqual(['refused', 'done']);
    expect(taken[0].reasons[0].code).toBe('command.repeated');
  });
});

describe('a queue', () => {
  test('is not kept back by a report that cannot be understood', async () => {
    const { sentAt, reports } = queueOf([
      { key: 'c1', ago: 3, command: { kind: 'sing', taskId: layUp } },
      { key: 'c2', ago: 2, command: { kind: 'reading', space: 'bay', celsius: 18 } },
      { key: 'c3', ago: 1, command: { kind: 'start' } },
    ]);
    const taken = await send('cato', { sentAt, reports: [...reports, 'nonsense', { key: 7 }] });
    expect(outcomes(taken)).toEqual(['refused', 'done', 'refused', 'refused', 'refused']);
    expect(taken[0].reasons[0]).toMatchObject({ path: 'reports[0].command.kind' });
    expect(taken[2].reasons[0]).toMatchObject({ path: 'reports[2].command.taskId' });
    expect(taken[3]).toMatchObject({ key: null, report: null });
    expect(await database.owner.report.count({ where: { memberId: 'cato' } })).toBe(1);
    const reading = await database.owner.reading.findFirstOrThrow({ where: { celsius: 18 } });
    expect(Math.abs(minutesSince(reading.at) - 2)).toBeLessThan(2);
  });

  test('has its limits, and says so by field', async () => {
    const none = await call('cato', 'POST', '/yards/small/reports', { reports: [] });
    expect([none.status, faultsOf(none.body)]).toEqual([422, [['reports', 'input.field']]]);
    const many = queueOf(
      Array.from({ length: 201 }, (_, k) => ({
        key: String(k),
        ago: 1,
        command: { kind: 'finish', taskId: fair },
      })),
    );
    expect((await call('cato', 'POST', '/yards/small/reports', many)).status).toBe(422);
    expect(await database.owner.report.count({ where: { memberId: 'cato' } })).toBe(1);
  });

  test('holds what a builder found on a film', async () => {
    const command = { kind: 'tack-test', taskId: layUp, found: 'dry' };
    const taken = await send('dirk', queueOf([{ key: 't1', ago: 40, command }]));
    expect(outcomes(taken)).toEqual(['done']);
    const found = await database.owner.observation.findMany({ where: { yardId: 'small' } });
    expect(found).toMatchObject([
      { materialId: 'epoxy', spaceId: 'bay', milestone: 'sandable', found: 'already' },
    ]);
    expect(found[0].laidAt).toEqual((await storedTask(layUp)).finishedAt);
  });

  test('can be sent over GraphQL', async () => {
    const at = new Date(Date.now() - 2 * minuteMs).toISOString();
    const { body } = await api.graphql(
      `mutation ($input: ReportsInput!) { sendReports(yardId: "small", input: $input) {
        items { key outcome reasons { code } report { command { kind taskId } member { id } } } } }`,
      {
        input: {
          reports: [
            { key: 'g1', at, command: { kind: 'PROGRESS', taskId: fair, leftMinutes: 30 } },
          ],
        },
      },
      { token: tokens.get('fay') ?? '' },
    );
    expect(body).toEqual({
      data: {
        sendReports: {
          items: [
            {
              key: 'g1',
              outcome: 'DONE',
              reasons: [],
              report: { command: { kind: 'PROGRESS', taskId: fair }, member: { id: 'fay' } },
            },
          ],
        },
      },
    });
  });
});

describe('the foreman', () => {
  const settle = (id: unknown, body: object, who: Name = 'ines'): Promise<Answer> =>
    call(who, 'POST', `/yards/small/reports/${String(id)}/settle`, body);

  test('gives the moment to what was told of a time that has not been', async () => {
    const command = { kind: 'finish', taskId: fair };
    const [held] = await send('fay', queueOf([{ key: 'f3', ago: -50, command }]));
    expect(held).toMatchObject({ outcome: 'held', reasons: [{ code: 'input.field', path: 'at' }] });
    const id = held.report?.id;
    expect((await settle(id, { as: 'done' }, 'fay')).status).toBe(403);
    const at = new Date(Date.now() - minuteMs).toISOString();
    const settled = await settle(id, { as: 'done', at, note: 'asked her' });
    expect(settled).toMatchObject({
      status: 200,
      body: { outcome: 'done', settledById: 'ines', note: 'asked her', reasons: [] },
    });
    const { state, finishedAt } = await storedTask(fair);
    expect(state).toBe('done');
    expect(Math.abs(minutesSince(finishedAt) - 1)).toBeLessThan(2);
    expect(await settle(id, { as: 'done' })).toMatchObject({
      status: 409,
      body: { code: 'report.state' },
    });
  });

  test('dismisses with a word what was not so, and it stays to be read', async () => {
    const command = { kind: 'start', taskId: layUp };
    const queue = queueOf([{ key: 'e1', ago: 9, command }]);
    const [held] = await send('elin', queue);
    expect(held.outcome).toBe('held');
    const id = held.report?.id;
    const silent = await settle(id, { as: 'dismissed' });
    expect([silent.status, faultsOf(silent.body)]).toEqual([422, [['note', 'input.field']]]);
    const done = await settle(id, { as: 'done' });
    expect([done.status, done.body.code]).toEqual([409, 'claim.state']);
    expect(await settle(id, { as: 'dismissed', note: 'It was done on Monday.' })).toMatchObject({
      status: 200,
      body: { outcome: 'dismissed', member: { id: 'elin' } },
    });
    const again = await send('elin', queue);
    expect(outcomes(again)).toEqual(['dismissed']);
    const mine = await call('elin', 'GET', '/yards/small/reports?member=elin');
    expect(mine.body).toMatchObject({
      items: [{ outcome: 'dismissed', note: 'It was done on Monday.' }],
    });
  });

  test('hears of what is held and what becomes of it', async () => {
    const events = await database.owner.event.findMany({
      where: { yardId: 'small', subject: 'report' },
      orderBy: { id: 'asc' },
    });
    const kinds = events.map(({ kind }) => kind);
    expect(kinds.filter((kind) => kind === 'report-held')).toHaveLength(4);
    expect(kinds.filter((kind) => kind === 'report-done')).toHaveLength(1);
    expect(kinds.filter((kind) => kind === 'report-dismissed')).toHaveLength(1);
  });
});

test('what waits for work that is told another way is carried out when that is there', async () => {
  const claim = { kind: 'claim', taskId: 'locker.fair' };
  const [early] = await send('fay', queueOf([{ key: 'f9', ago: 1, command: claim }]));
  expect([early.outcome, early.reasons[0].code]).toEqual(['held', 'claim.not-ready']);
  const at = (ago: number) => ({ at: new Date(Date.now() - ago * minuteMs).toISOString() });
  const { status, body } = await call(
    'bram',
    'POST',
    `/yards/small/tasks/${locker}/claims`,
    at(3080),
  );
  expect([status, body.detail]).toEqual([201, undefined]);
  const below = `/yards/small/claims/${String(body.id)}`;
  expect((await call('bram', 'POST', `${below}/start`, at(3070))).status).toBe(200);
  expect((await call('bram', 'POST', `${below}/finish`, at(3000))).status).toBe(200);
  await until(async () => (await reportOf('fay', 'f9')).outcome === 'done');
  expect(await eventsOf('locker.fair')).toEqual(['task-claimed']);
});

test('everything that was understood is kept, and the log has it', async () => {
  const rows = await database.owner.report.findMany({ where: { yardId: 'small' } });
  const work = rows.filter(({ outcome, kind }) => outcome === 'done' && !foundOut.has(kind));
  expect(rows.length - work.length).toBe(3);
  const events = await database.owner.event.findMany({ where: { subject: 'task' } });
  const told = events.map(({ payload }) => z.looseObject({}).parse(payload).reportId);
  for (const { id } of work) expect(told.filter((reportId) => reportId === id)).toHaveLength(1);
});

describe('what comes late', () => {
  const lid = 'locker.fair';
  const held = async (who: Name): Promise<string> => {
    const { id } = await database.owner.claim.findFirstOrThrow({
      where: { taskId: lid, memberId: who, status: { in: ['open', 'working'] } },
    });
    return `/yards/small/claims/${id}`;
  };

  test('is not done to a claim that was made after it', async () => {
    expect((await call('fay', 'POST', `${await held('fay')}/release`)).status).toBe(200);
    const release = { kind: 'release', taskId: lid };
    const [early] = await send('fay', queueOf([{ key: 'l1', ago: 5, command: release }]));
    expect([early.outcome, early.reasons[0].code]).toEqual(['held', 'claim.state']);
    expect((await call('fay', 'POST', `/yards/small/tasks/${lid}/claims`)).status).toBe(201);
    // The foreman reads a thermometer, and whatever is done by then has all that is held tried again.
    const command = { kind: 'reading', space: 'bay', celsius: 17 };
    await send('ines', queueOf([{ key: 'l2', ago: 1, command }]));
    expect((await reportOf('fay', 'l1')).outcome).toBe('held');
    expect((await call('fay', 'GET', await held('fay'))).body.status).toBe('open');
  });

  test('and is taken back while it is held takes nothing else back', async () => {
    const at = new Date(Date.now() - 2 * minuteMs).toISOString();
    const begun = await call('fay', 'POST', `${await held('fay')}/start`, { at });
    expect([begun.status, begun.body.detail]).toEqual([200, undefined]);
    const [finish, undo] = [
      { kind: 'finish', taskId: lid },
      { kind: 'undo', taskId: lid },
    ];
    // By a clock that was set back in between.
    const queue = queueOf([
      { key: 'l3', ago: -20, command: finish },
      { key: 'l4', ago: -21, command: undo },
    ]);
    const first = await send('fay', { ...queue, reports: queue.reports.slice(0, 1) });
    expect(outcomes(first)).toEqual(['held']);
    const later = queueOf([{ key: 'l4', ago: 0, command: undo }], 30);
    expect(outcomes(await send('fay', later))).toEqual(['done']);
    expect(await reportOf('fay', 'l3')).toMatchObject({
      outcome: 'dismissed',
      settledById: 'fay',
      note: 'Taken back before it was carried out.',
    });
    expect((await storedTask(lid)).state).toBe('working');
    // The next one takes back what was carried out.
    const next = queueOf([{ key: 'l5', ago: 0, command: undo }], 30);
    expect(outcomes(await send('fay', next))).toEqual(['done']);
    expect((await storedTask(lid)).state).toBe('waiting');
  });

  test('of a year that no clock shows is refused, and nothing else with it', async () => {
    const command = { kind: 'reading', space: 'hull', celsius: 16 };
    const { sentAt, reports } = queueOf([{ key: 'y1', ago: 1, command }]);
    const odd = { key: 'y0', at: '0000-01-01T00:00:00Z', command };
    const reset = { key: 'y2', at: '1970-01-01T00:03:00Z', command };
    const taken = await send('cato', { sentAt, reports: [odd, ...reports, reset] });
    expect(outcomes(taken)).toEqual(['refused', 'done', 'held']);
    expect(taken[0].reasons[0].path).toBe('reports[0].at');
    expect(taken[2].reasons[0].path).toBe('at');
  });

  test('is tried again though many that never will be done are older', async () => {
    const stuck = await database.owner.report.findMany({
      where: { outcome: 'held', kind: { not: 'undo' }, memberId: 'fay' },
      select: { id: true },
    });
    expect(stuck).toHaveLength(1);
    const claim = { kind: 'claim', taskId: layUp };
    const [last] = await send('elin', queueOf([{ key: 'e9', ago: 9, command: claim }]));
    expect(last.outcome).toBe('held');
    const ids = await inYard(database.service, service('small'), (tx) =>
      heldIds(tx, 'small', passing, 1),
    );
    expect(ids).toEqual([last.report?.id]);
  });
});

const foundOut: ReadonlySet<string> = new Set(['reading', 'tack-test']);
