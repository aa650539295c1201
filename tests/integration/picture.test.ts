import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { addDays, weekStart } from '#calendar/local-date.ts';
import { toLocal } from '#calendar/local-time.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import { faultsOf, testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { publishPlan } from '../support/published-plan.ts';
import { twoBoats } from '../support/two-boats.ts';

/** A week of a plan as it is drawn: who works where, films, hours, and how it stands by now. */
const database = testDatabase();
const api = testApi(database);
const today = toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date;
/** The Monday that the plan begins on. */
const monday = addDays(weekStart(today), -7);
const tokens = new Map<string, string>();
let sheet: PlanSheet;

const taskSchema = z.looseObject({
  id: z.string(),
  start: z.string(),
  finish: z.string(),
  spaceId: z.string(),
  crew: z.array(z.string()),
  segments: z.array(z.object({ from: z.string(), until: z.string() })),
  film: z.array(z.object({ milestone: z.string(), at: z.string().nullable() })),
  filmUntil: z.string().nullable(),
  windows: z.array(z.looseObject({ toTask: z.string(), starts: z.string() })),
  now: z.object({ state: z.string(), crew: z.array(z.string()) }).loose(),
});
const pictureSchema = z.looseObject({
  planId: z.string(),
  isPublished: z.boolean(),
  begins: z.string(),
  ends: z.string(),
  from: z.string(),
  tasks: z.array(taskSchema),
  people: z.array(z.looseObject({ id: z.string(), hours: z.array(z.unknown()) })),
  spaces: z.array(z.looseObject({ id: z.string(), dustReaches: z.array(z.string()) })),
  boats: z.array(z.looseObject({ refitId: z.string(), chain: z.array(z.unknown()) })),
});

const get = (path: string, who = 'ines') =>
  api.rest('GET', `/yards/small/${path}`, { token: tokens.get(who) ?? '' });
const picture = async (query = `from=${monday}`) =>
  pictureSchema.parse((await get(`published-plan/picture?${query}`)).body);
const planned = (id: string) => {
  const found = sheet.tasks.find((task) => task.id === id);
  if (!found) throw new Error(`the plan has no ${id}`);
  return found;
};

beforeAll(async () => {
  for (const who of ['ines', 'bram', 'odile']) {
    await api.addAccount(`${who}@yard.test`);
    tokens.set(who, await api.signIn(`${who}@yard.test`));
  }
  const sending = { token: tokens.get('ines') ?? '', body: twoBoats(today) };
  const made = await api.rest('POST', '/yards', sending);
  if (made.status !== 201) throw new Error(JSON.stringify(made.body));
  await api.join('small');
  expect((await get('published-plan/picture')).status).toBe(404);
  sheet = await publishPlan(database, 'small');
});

describe('a week of the plan', () => {
  test('has the work of its days with films and windows, hours, spaces and boats', async () => {
    const drawn = await picture();
    expect(drawn).toMatchObject({ isPublished: true, from: monday, days: 7 });
    // Midnights of the yard's clock, whatever its offset is.
    expect(toLocal(Date.parse(drawn.begins) / 60_000, 'Europe/London')).toEqual({
      date: monday,
      time: '00:00',
    });
    expect(toLocal(Date.parse(drawn.ends) / 60_000, 'Europe/London').date).toBe(addDays(monday, 7));
    const inWeek = sheet.tasks.filter(({ start }) => start.at < drawn.ends).map(({ id }) => id);
    expect(inWeek.length).toBeGreaterThan(0);
    expect(drawn.tasks.map(({ id }) => id).sort()).toEqual(inWeek.sort());

    const layUp = drawn.tasks.find(({ id }) => id === 'petrel-panel.lay-up');
    const { start, finish, segments, crew, film } = planned('petrel-panel.lay-up');
    expect(layUp).toMatchObject({
      start: start.at,
      finish: finish.at,
      air: 'wet',
      spaceId: 'bay',
      crew: crew.map(({ personId }) => personId),
      segments: segments.map((one) => ({ from: one.start.at, until: one.finish.at })),
      film: film.map(({ milestone, when }) => ({ milestone, at: when?.at ?? null })),
      now: { state: 'waiting', crew: [] },
      crewIsSet: false,
      fixedStart: null,
    });
    // Its film matters until it is sanded.
    const fair = planned('petrel-panel.fair');
    expect(layUp?.windows).toMatchObject([
      { toTask: fair.id, kind: 'sand', starts: fair.start.at },
    ]);
    expect(Date.parse(layUp?.filmUntil ?? '')).toBe(Date.parse(fair.start.at));
    expect(drawn.tasks.find(({ id }) => id === fair.id)).toMatchObject({
      film: [],
      filmUntil: null,
    });

    expect(drawn.people.find(({ id }) => id === 'bram')?.hours).toEqual([
      { from: drawn.begins, until: drawn.ends },
    ]);
    expect(drawn.people.some(({ id }) => id === 'odile')).toBe(false);
    expect(drawn.spaces.map(({ id }) => id)).toEqual(['bay', 'hull']);
    expect(drawn.boats.map(({ refitId }) => refitId).sort()).toEqual([
      'heron-refit',
      'petrel-refit',
    ]);
    expect(drawn.boats.every(({ chain }) => chain.length > 0)).toBe(true);
  });

  test('is of as few days as are asked for; without a day it is the week of now', async () => {
    const later = await picture(`from=${addDays(monday, 70)}&days=1`);
    expect(later).toMatchObject({ days: 1, tasks: [] });
    expect((await picture('')).from).toBe(weekStart(today));
    const wrong = await get('published-plan/picture?from=yesterday&days=90');
    expect(wrong.status).toBe(422);
    expect(faultsOf(wrong.body).map(([path]) => path)).toEqual(['from', 'days']);
  });

  test('has what is left from before it where it is the week of now', async () => {
    const { tasks, people, from } = await picture('');
    const left = sheet.tasks.filter(({ finish }) => finish.at <= `${from}T00:00`);
    expect(left.length).toBeGreaterThan(0);
    const drawn = new Map(tasks.map((task) => [task.id, task]));
    for (const { id, crew } of left) {
      expect(drawn.get(id)?.now.state).toBe('waiting');
      const ids = people.map((person) => person.id);
      expect(ids).toEqual(expect.arrayContaining(crew.map(({ personId }) => personId)));
    }
    const earlier = await picture(`from=${addDays(monday, -7)}`);
    const later = await picture(`from=${addDays(monday, 70)}`);
    expect([...earlier.tasks, ...later.tasks]).toEqual([]);
  });

  test('of a plan by its id, and by GraphQL, is the same', async () => {
    const { planId, tasks } = await picture();
    const byId = pictureSchema.parse((await get(`plans/${planId}/picture?from=${monday}`)).body);
    expect(byId).toMatchObject({ planId, isPublished: true, tasks });
    const query = `query P($y: ID!, $id: ID, $input: PictureQuery!) {
      planPicture(yardId: $y, id: $id, input: $input) { planId isPublished tasks { id now { state } } }
    }`;
    const variables = { y: 'small', id: planId, input: { from: monday } };
    const { body } = await api.graphql(query, variables, { token: tokens.get('ines') ?? '' });
    expect(body).toMatchObject({
      data: { planPicture: { planId, isPublished: true, tasks: tasks.map(({ id }) => ({ id })) } },
    });
    const none = await get(`plans/${crypto.randomUUID()}/picture`);
    expect(none).toMatchObject({ status: 404, body: { code: 'record.missing' } });
  });

  test('of a draft says so, and is not what the yard works to', async () => {
    const { planId } = await picture();
    await publishPlan(database, 'small');
    const draft = pictureSchema.parse((await get(`plans/${planId}/picture?from=${monday}`)).body);
    expect(draft).toMatchObject({ planId, isPublished: false });
    expect((await picture()).planId).not.toBe(planId);
    // Nothing is left of what nobody works to.
    const now = pictureSchema.parse((await get(`plans/${planId}/picture`)).body);
    expect(now.tasks.every(({ finish }) => finish > now.begins)).toBe(true);
  });

  test('is the foreman’s', async () => {
    const { planId } = await picture();
    for (const who of ['bram', 'odile']) {
      expect((await get('published-plan/picture', who)).status).toBe(403);
      expect((await get(`plans/${planId}/picture`, who)).status).toBe(403);
    }
  });
});

describe('how it stands by now', () => {
  const lay = 'petrel-panel.lay-up';
  const send = (path: string, body: unknown = {}) =>
    api.rest('POST', `/yards/small/${path}`, { token: tokens.get('bram') ?? '', body });
  const nowOf = async (id: string) => (await picture()).tasks.find((task) => task.id === id)?.now;

  test('follows what is reported', async () => {
    const claim = await send(`tasks/${lay}/claims`);
    expect(claim.status).toBe(201);
    expect(await nowOf(lay)).toMatchObject({ state: 'claimed', crew: ['bram'], startedAt: null });
    const id = z.string().parse(claim.body.id);
    expect((await send(`claims/${id}/start`)).status).toBe(200);
    expect(await nowOf(lay)).toMatchObject({ state: 'working', crew: ['bram'], finishedAt: null });
    expect((await send(`claims/${id}/finish`)).status).toBe(200);
    const done = await nowOf(lay);
    expect(done).toMatchObject({ state: 'done', crew: ['bram'] });
    expect(done?.startedAt).not.toBeNull();
    expect(done?.finishedAt).not.toBeNull();
  });

  test('and what the foreman has set', async () => {
    const path = '/yards/small/tasks/heron-panel.lay-up';
    const token = tokens.get('ines') ?? '';
    const { headers } = await api.rest('GET', path, { token });
    const fixedStart = `${addDays(today, 3)}T09:00:00Z`;
    const fixed = await api.rest('PATCH', path, {
      token,
      body: { fixedStart, crew: ['elin'] },
      headers: { 'if-match': headers.get('etag') ?? '' },
    });
    expect(fixed.status).toBe(200);
    const heron = (await picture()).tasks.find(({ id }) => id === 'heron-panel.lay-up');
    expect(heron).toMatchObject({
      fixedStart,
      crewIsSet: true,
      now: { state: 'waiting', crew: [] },
    });
  });
});
