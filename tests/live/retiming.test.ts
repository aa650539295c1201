import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { toLocal } from '#calendar/local-time.ts';
import { type Answer, faultsOf, testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { publishPlan } from '../support/published-plan.ts';
import { roundTheClock } from '../support/round-the-clock.ts';
import { twoBoats } from '../support/two-boats.ts';

const database = testDatabase();
const api = testApi(database);
const minuteMs = 60_000;
let token = '';
let monday = '';

/**
 * The film of Petrel's hatch was laid so many minutes ago, in a bay heated to 20 °C: by its sheet it
 * can be sanded after some 1,190, and on the safe side after half as much again.
 */
const laidAgo = 1100;

beforeAll(async () => {
  const today = toLocal(Math.floor(Date.now() / minuteMs), 'Europe/London').date;
  for (const name of ['ines', 'bram']) await api.addAccount(`${name}@yard.test`);
  token = await api.signIn('ines@yard.test');
  const yard = roundTheClock(twoBoats(today));
  // A sheet that is not known so exactly that no finding could move it.
  const [epoxy] = yard.materials ?? [];
  const milestones = (epoxy.milestones ?? []).map((table) =>
    table.milestone === 'sandable' ? { ...table, spread: 1.5 } : table,
  );
  monday = yard.planFrom;
  const { status, body } = await post('', { ...yard, materials: [{ ...epoxy, milestones }] });
  if (status !== 201) throw new Error(JSON.stringify(body));
  await api.join('small');
  await publishPlan(database, 'small');
  const claim = await post('/small/tasks/petrel-panel.lay-up/claims', {
    crew: ['bram'],
    at: ago(laidAgo + 70),
  });
  const below = `/small/claims/${String(claim.body.id)}`;
  expect((await post(`${below}/start`, { at: ago(laidAgo + 60) })).status).toBe(200);
  expect((await post(`${below}/finish`, { at: ago(laidAgo) })).status).toBe(200);
});

const post = (below: string, body: unknown): Promise<Answer> =>
  api.rest('POST', `/yards${below}`, { token, body });

/** A whole minute before now. */
const ago = (minutes: number): string =>
  new Date(Math.floor(Date.now() / minuteMs - minutes) * minuteMs).toISOString();

const listSchema = z.object({
  waiting: z.array(
    z.object({ taskId: z.string(), opens: z.object({ at: z.string() }).nullable() }),
  ),
});
/** When the ready list says that the hatch can be sanded, as minutes after its film was laid. */
async function opensAfter(): Promise<number> {
  const { body } = await api.rest('GET', '/yards/small/ready?whose=all', { token });
  const fair = listSchema.parse(body).waiting.find(({ taskId }) => taskId === 'petrel-panel.fair');
  const laid = await database.owner.task.findFirstOrThrow({
    where: { id: 'petrel-panel.lay-up' },
  });
  const opens = Date.parse(fair?.opens?.at ?? '');
  return (opens - (laid.finishedAt?.getTime() ?? NaN)) / minuteMs;
}

/** What a logger told of the bay, ten minutes each, from `from` to `until` minutes ago. */
const logged = (celsius: number, from: number, until: number) =>
  Array.from({ length: (from - until) / 10 }, (_, k) => ({
    space: 'bay',
    at: ago(from - k * 10),
    minutes: 10,
    celsius,
  }));

describe('a window of a running film', () => {
  test('moves at once with a tack test', async () => {
    const before = await opensAfter();
    const test = (found: string, minutes: number) =>
      post('/small/tasks/petrel-panel.lay-up/tack-tests', {
        found,
        note: 'port side',
        at: ago(minutes),
      });
    const clogs = await test('clogs', laidAgo - 700);
    expect(clogs).toMatchObject({
      status: 201,
      body: { items: [{ material: 'epoxy', milestone: 'sandable', found: 'not-yet' }] },
    });
    const still = await opensAfter();
    expect((await test('dry', 0)).status).toBe(201);
    expect(await opensAfter()).toBeLessThan(Math.min(before, still) - 60);
    const unlaid = await post('/small/tasks/heron-panel.lay-up/tack-tests', { found: 'dry' });
    expect(unlaid).toMatchObject({ status: 409, body: { code: 'work.film' } });
  });

  test('moves at once with readings, which may come late and out of order', async () => {
    const before = await opensAfter();
    expect(before).toBeGreaterThan(laidAgo);
    // Colder than the heater was set to: the film is later. The last hour is told first.
    expect((await post('/small/readings', { readings: logged(10, 60, 0) })).status).toBe(201);
    const lastHour = await opensAfter();
    expect(lastHour).toBeGreaterThan(before);
    const earlier = logged(10, laidAgo - 10, 60).reverse();
    expect((await post('/small/readings', { readings: earlier })).status).toBe(201);
    const whole = await opensAfter();
    expect(whole).toBeGreaterThan(lastHour);
  });

  test('moves back when readings are taken away', async () => {
    const cold = await opensAfter();
    const [last] = await database.owner.reading.findMany({
      where: { celsius: 10 },
      orderBy: { at: 'desc' },
      take: 1,
    });
    const gone = await api.rest('DELETE', `/yards/small/readings/${last.id}`, { token });
    expect(gone.status).toBe(204);
    expect(await opensAfter()).toBeLessThan(cold);
  });
});

describe('readings', () => {
  test('ten thousand come at once, in any order, and are all there', async () => {
    const from = Date.parse(monday) - 9 * 24 * 60 * minuteMs;
    const readings = Array.from({ length: 10_000 }, (_, k) => ({
      space: 'hull',
      // 7,919 is prime to ten thousand: every minute comes once, out of order.
      at: new Date(from + ((k * 7919) % 10_000) * minuteMs).toISOString(),
      celsius: 8 + (k % 7) / 10,
    }));
    const answer = await post('/small/readings', { readings });
    expect([answer.status, answer.body.detail]).toEqual([201, undefined]);
    expect(answer.body).toMatchObject({ skipped: 0 });
    expect(await database.owner.reading.count({ where: { spaceId: 'hull' } })).toBe(10_000);
    const events = await database.owner.event.findMany({
      where: { kind: 'readings-added', subjectId: 'hull' },
    });
    expect(events.map(({ payload }) => payload)).toEqual([{ count: 10_000 }]);

    // A logger that tells all it holds once more, and one new.
    const more = { space: 'hull', at: ago(3), celsius: 9 };
    const repeated = { skipKnown: true, readings: [...readings.slice(0, 500), more] };
    expect((await post('/small/readings', repeated)).body).toMatchObject({
      skipped: 500,
      items: [{ celsius: 9 }],
    });
    expect((await post('/small/readings', { ...repeated, skipKnown: false })).status).toBe(422);
    expect((await post('/small/readings', { readings: [...readings, more] })).status).toBe(422);
    expect(await database.owner.reading.count({ where: { spaceId: 'hull' } })).toBe(10_001);
  });

  test('of a logger whose clock is ten minutes off come at the real times', async () => {
    const shown = (minutes: number): string =>
      new Date(Math.floor(Date.now() / minuteMs + 10 - minutes) * minuteMs).toISOString();
    const body = { readings: [{ id: 'ahead', space: 'hull', at: shown(1), celsius: 7 }] };
    expect(faultsOf((await post('/small/readings', body)).body)).toEqual([
      ['readings[0].at', 'cure.reading'],
    ]);
    const sentAt = new Date(Date.now() + 10 * minuteMs).toISOString();
    expect((await post('/small/readings', { ...body, sentAt })).status).toBe(201);
    const { at } = await database.owner.reading.findFirstOrThrow({ where: { id: 'ahead' } });
    const minutes = (Date.now() - at.getTime()) / minuteMs;
    expect(minutes).toBeGreaterThan(0);
    expect(minutes).toBeLessThan(3);
  });
});
