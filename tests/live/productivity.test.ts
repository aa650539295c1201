import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { toLocal } from '#calendar/local-time.ts';
import { inYard, service } from '#persistence/client.ts';
import { loadWorkload } from '#persistence/workload/store.ts';
import { loadYard } from '#persistence/yard/store.ts';
import { compile } from '#planning/compile/compile.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { type Answer, faultsOf, testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { twoBoats } from '../support/two-boats.ts';

/** What finished work says of the numbers that are planned with, and what the foreman makes of it. */
const database = testDatabase();
const api = testApi(database);
const names = ['ines', 'bram', 'cato', 'odile'] as const;
type Name = (typeof names)[number];
const tokens = new Map<Name, string>();

/** Six panels in the bay, of which four get done; each is 110 minutes to lay up by its step. */
function yard(): YardInput {
  const made = twoBoats(toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date);
  return {
    ...made,
    boats: made.boats?.map((boat) => ({
      ...boat,
      refits: boat.refits?.map((refit) => ({
        ...refit,
        parts: [0, 1, 2].map((k) => ({
          id: `${boat.id}-${String(k)}`,
          name: `Panel ${String(k)} of ${boat.name}`,
          space: 'bay',
          areaM2: 2,
          jobs: [{ id: `${boat.id}-${String(k)}`, procedure: 'panel' }],
        })),
      })),
    })),
  };
}

function call(
  who: Name,
  method: string,
  path: string,
  body?: unknown,
  headers = {},
): Promise<Answer> {
  const token = tokens.get(who) ?? '';
  const sent = body === undefined ? {} : { body };
  return api.rest(method, `/yards/small${path}`, { token, headers, ...sent });
}

const ago = (minutes: number): string =>
  new Date(Math.floor(Date.now() / 60_000 - minutes) * 60_000).toISOString();

/** Laid up by somebody in so many minutes, so many minutes ago. */
async function laid(who: Name, job: string, began: number, takes: number): Promise<void> {
  const held = await call(who, 'POST', `/tasks/${job}.lay-up/claims`);
  const id = z.string().parse(held.body.id);
  expect((await call(who, 'POST', `/claims/${id}/start`, { at: ago(began) })).status).toBe(200);
  const finish = { at: ago(began - takes) };
  expect((await call(who, 'POST', `/claims/${id}/finish`, finish)).status).toBe(200);
}

const estimate = { factor: z.number(), low: z.number(), high: z.number(), tasks: z.int() };
const shape = z.object({
  yard: z.object(estimate).nullable(),
  steps: z.array(z.object({ ...estimate, stepId: z.string(), revision: z.int() })),
  people: z.array(
    z.object({ ...estimate, personId: z.string(), revision: z.int(), speedThen: z.int() }),
  ),
  spaces: z.array(z.object({ ...estimate, spaceId: z.string(), revision: z.int() })),
});
const learned = async () => shape.parse((await call('ines', 'GET', '/productivity')).body);
const apply = (body: unknown): Promise<Answer> => call('ines', 'POST', '/productivity/apply', body);

beforeAll(async () => {
  for (const name of names) await api.addAccount(`${name}@yard.test`);
  for (const name of names) tokens.set(name, await api.signIn(`${name}@yard.test`));
  const token = tokens.get('ines') ?? '';
  const { status, body } = await api.rest('POST', '/yards', { token, body: yard() });
  if (status !== 201) throw new Error(JSON.stringify(body));
  await api.join('small');
});

describe('productivity', () => {
  test('is nothing before anything is done, and the foreman’s alone to read', async () => {
    expect(await call('ines', 'GET', '/productivity')).toMatchObject({
      status: 200,
      body: { yard: null, steps: [], people: [], spaces: [], setAside: [], leftOut: [] },
    });
    expect((await call('bram', 'GET', '/productivity')).status).toBe(403);
    expect((await call('odile', 'GET', '/productivity')).status).toBe(403);
    const word = { change: { kind: 'space', spaceId: 'bay' }, factor: 1.2, revision: 1 };
    expect((await call('bram', 'POST', '/productivity/apply', word)).status).toBe(403);
  });

  test('tells by how much work takes longer, by whom, and how sure that is', async () => {
    // The step says 110 minutes; Cato is the quicker of the two.
    await laid('bram', 'petrel-0', 4000, 220);
    await laid('bram', 'petrel-1', 3700, 210);
    await laid('cato', 'heron-0', 4000, 150);
    await laid('cato', 'heron-1', 3800, 140);
    const { yard: all, steps, people, spaces } = await learned();
    expect(all?.tasks).toBe(4);
    const [layUp] = steps;
    expect(layUp).toMatchObject({ stepId: 'lay-up', tasks: 4, revision: 1 });
    // The geometric mean of 2, 1.91, 1.36 and 1.27, drawn towards 1 and within its interval.
    expect(layUp.factor).toBeGreaterThan(1.3);
    expect(layUp.factor).toBeLessThan(1.61);
    expect(layUp.low).toBeLessThan(layUp.factor);
    expect(layUp.high).toBeGreaterThan(1.6);
    const of = (who: string) => people.find(({ personId }) => personId === who);
    expect(of('bram')?.factor).toBeGreaterThan(1.05);
    expect(of('cato')?.factor).toBeLessThan(0.95);
    expect(of('bram')?.speedThen).toBeLessThan(100);
    expect(spaces).toMatchObject([{ spaceId: 'bay', factor: 1 }]);
  });

  test('gives somebody the speed that the foreman says', async () => {
    const change = { kind: 'person', personId: 'bram', skillId: 'laminating' };
    const { people } = await learned();
    const revision = people.find(({ personId }) => personId === 'bram')?.revision;
    const answer = await apply({ change, factor: 1.25, revision });
    expect(answer).toMatchObject({
      status: 200,
      body: {
        words: 'Bram’s speed at Laminating is planned with 80 % instead of 100 %.',
        tasks: 0,
        revision: (revision ?? 0) + 1,
      },
    });
    const { body } = await call('ines', 'GET', '/people/bram');
    expect(body).toMatchObject({
      revision: (revision ?? 0) + 1,
      abilities: [
        { skill: 'laminating', speed: 80 },
        { skill: 'fairing', speed: 100 },
      ],
    });
    // What was applied is not told again.
    const now = (await learned()).people.find(({ personId }) => personId === 'bram');
    expect(now?.factor).toBeLessThan(
      people.find(({ personId }) => personId === 'bram')?.factor ?? 0,
    );
    expect((await apply({ change, factor: 1.25, revision })).status).toBe(412);
  });

  test('gives a space its percentage, by which work there is planned, and which its file keeps', async () => {
    const change = { kind: 'space', spaceId: 'bay' };
    const [{ revision }] = (await learned()).spaces;
    const work = (): Promise<number> =>
      inYard(database.service, service('small'), async (tx) => {
        const [yardNow, workload] = [await loadYard(tx, 'small'), await loadWorkload(tx, 'small')];
        const { problem } = compile({ yard: yardNow, workload });
        const waiting = problem.activities.find(({ id }) => id === 'petrel-2.lay-up');
        return waiting?.modes[0].work ?? 0;
      });
    expect(await work()).toBe(11_000);
    const answer = await apply({ change, factor: 1.3, revision });
    expect(answer.body).toMatchObject({
      words: 'Work in Bench bay is planned with 130 % instead of 100 %.',
    });
    expect(await work()).toBe(14_300);
    const space = await call('ines', 'GET', '/spaces/bay');
    expect(space.body).toMatchObject({ workPercent: 130 });
    const file = await call('ines', 'GET', '/export');
    expect(file.body).toMatchObject({
      spaces: [{ id: 'bay', workPercent: 130 }, { workPercent: 100 }],
    });
    const etag = space.headers.get('etag') ?? '';
    const back = await call(
      'ines',
      'PATCH',
      '/spaces/bay',
      { workPercent: 100 },
      { 'if-match': etag },
    );
    expect(back.body).toMatchObject({ workPercent: 100 });
  });

  test('gives a step another effort in a new version, and sizes what waits', async () => {
    const change = { kind: 'step', procedureId: 'panel', stepId: 'lay-up' };
    const before = await learned();
    const answer = await apply({ change, factor: 1.5, revision: 1 });
    // Two of the six have not been begun.
    expect(answer).toMatchObject({ status: 200, body: { tasks: 2, revision: 2 } });
    const { body } = await call('ines', 'GET', '/procedures/panel');
    expect(body).toMatchObject({
      version: 2,
      steps: [
        {
          effort: {
            fixed: 45,
            perM2: 60,
            source: expect.stringContaining('1.5 times as long. Before: invented') as string,
          },
        },
        {},
      ],
    });
    const tasks = await inYard(database.service, service('small'), (tx) =>
      loadWorkload(tx, 'small'),
    );
    const minutes = tasks.tasks
      .filter(({ stepId }) => stepId === 'lay-up')
      .map(({ state, workMinutes }) => [state, workMinutes]);
    expect(minutes.filter(([state]) => state === 'done').map(([, one]) => one)).toEqual([
      110, 110, 110, 110,
    ]);
    expect(minutes.filter(([state]) => state === 'waiting').map(([, one]) => one)).toEqual([
      165, 165,
    ]);
    const [now] = (await learned()).steps;
    expect(now).toMatchObject({ tasks: 4, revision: 2 });
    expect(before.steps[0].factor / now.factor).toBeGreaterThan(1.25);
    expect((await apply({ change, factor: 1.5, revision: 1 })).status).toBe(412);
    // Without sizing what waits.
    const only = await apply({ change, factor: 0.9, revision: 2, alsoWaiting: false });
    expect(only.body).toMatchObject({ tasks: 0, revision: 3 });
  });

  test('says in the log what was changed, from what and by whom', async () => {
    const events = await database.owner.event.findMany({
      where: { yardId: 'small', kind: 'productivity-applied' },
      orderBy: { id: 'asc' },
    });
    expect(
      events.map(({ subject, subjectId, byMemberId }) => [subject, subjectId, byMemberId]),
    ).toEqual([
      ['person', 'bram', 'ines'],
      ['space', 'bay', 'ines'],
      ['procedure', 'panel', 'ines'],
      ['procedure', 'panel', 'ines'],
    ]);
    expect(events[0].payload).toMatchObject({
      factor: 1.25,
      before: { skillId: 'laminating', speed: 100 },
      after: { skillId: 'laminating', speed: 80 },
    });
  });

  test('refuses what makes no sense, and names it', async () => {
    const refused = async (body: unknown): Promise<unknown> => {
      const answer = await apply(body);
      return answer.status === 422 ? faultsOf(answer.body).map(([path]) => path) : answer.status;
    };
    const space = { kind: 'space', spaceId: 'hull' };
    expect(await refused({ change: space, factor: 1, revision: 1 })).toEqual(['factor']);
    expect(await refused({ change: space, factor: 5, revision: 1 })).toEqual(['factor']);
    const attic = { ...space, spaceId: 'attic' };
    expect(await refused({ change: attic, factor: 2, revision: 1 })).toEqual(['change.spaceId']);
    expect(await refused({ change: space, factor: 2, revision: 9 })).toBe(412);
    const step = { kind: 'step', procedureId: 'panel', stepId: 'paint' };
    expect(await refused({ change: step, factor: 2, revision: 3 })).toEqual(['change.stepId']);
    const person = { kind: 'person', personId: 'fay', skillId: 'laminating' };
    expect(await refused({ change: person, factor: 2, revision: 1 })).toEqual(['change.skillId']);
    // 100 % may not become 400.
    expect(
      await refused({ change: { ...person, skillId: 'fairing' }, factor: 0.25, revision: 1 }),
    ).toEqual(['factor']);
    expect(await refused({ change: { kind: 'boat' }, factor: 2, revision: 1 })).toEqual([
      'change.kind',
    ]);
  });

  test('is asked for and applied by GraphQL as well', async () => {
    const token = tokens.get('ines') ?? '';
    const asked = await api.graphql(
      '{ productivity(yardId: "small") { yard { factor tasks } people { personId speed } method } }',
      {},
      { token },
    );
    expect(asked.body).toMatchObject({ data: { productivity: { yard: { tasks: 4 } } } });
    const { body } = await call('ines', 'GET', '/spaces/hull');
    const applied = await api.graphql(
      `mutation($revision: Int!) { applyProductivity(yardId: "small", input: {
        change: { kind: SPACE, spaceId: "hull" }, factor: 1.1, revision: $revision }) { words } }`,
      { revision: body.revision },
      { token },
    );
    expect(applied.body).toMatchObject({
      data: {
        applyProductivity: { words: 'Work in Open hull is planned with 110 % instead of 100 %.' },
      },
    });
  });
});
