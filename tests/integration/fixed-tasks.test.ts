import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { toLocal } from '#calendar/local-time.ts';
import { addDays, weekStart } from '#calendar/local-date.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { type Answer, faultsOf, idsOf, testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { planted } from '../support/planted.ts';
import { publishPlan } from '../support/published-plan.ts';
import { twoBoats } from '../support/two-boats.ts';

/** What the foreman fixes of a task: its moment, its crew, its order; and learners, alone and not. */
const database = testDatabase();
const api = testApi(database);
const today = toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date;
/** A Wednesday noon, two to three weeks on: a shift of everybody. */
const wednesday = `${addDays(weekStart(today), 16)}T12:00:00Z`;

const names = ['ines', 'bram', 'anke', 'cato', 'odile'] as const;
type Name = (typeof names)[number];
const tokens = new Map<Name, string>();

/** Anke and Cato are learners in laminating. */
function withLearners(yard: YardInput): YardInput {
  const learns = ['anke', 'cato'];
  const people = (yard.people ?? []).map((person) =>
    learns.includes(person.id)
      ? { ...person, abilities: [{ skill: 'laminating', level: 1 }] }
      : person,
  );
  return { ...yard, people };
}

beforeAll(async () => {
  for (const name of names) await api.addAccount(`${name}@yard.test`);
  for (const name of names) tokens.set(name, await api.signIn(`${name}@yard.test`));
  const { status, body } = await call('ines', 'POST', '/yards', withLearners(twoBoats(today)));
  if (status !== 201) throw new Error(JSON.stringify(body));
  await api.join('small');
});

function call(who: Name, method: string, path: string, body?: unknown, etag?: string) {
  return api.rest(method, path, {
    token: tokens.get(who) ?? '',
    ...(body === undefined ? {} : { body }),
    ...(etag === undefined ? {} : { headers: { 'if-match': etag } }),
  });
}

const petrel = 'petrel-panel.lay-up';
const heron = 'heron-panel.lay-up';
const path = (task: string): string => `/yards/small/tasks/${task}`;
async function fix(task: string, patch: object, who: Name = 'ines'): Promise<Answer> {
  const { headers } = await call(who, 'GET', path(task));
  return call(who, 'PATCH', path(task), patch, headers.get('etag') ?? '');
}
const claim = (who: Name, task: string, body?: unknown): Promise<Answer> =>
  call(who, 'POST', `${path(task)}/claims`, body);

const plannedOf = async (task: string) => {
  const found = (await publishPlan(database, 'small')).tasks.find(({ id }) => id === task);
  if (!found) throw new Error(`the plan has no ${task}`);
  return found;
};

describe('learners', () => {
  test('alone are refused, and told who could be with them', async () => {
    const detail = 'anke still learns Laminating';
    const alone = await claim('anke', petrel);
    expect(alone).toMatchObject({ status: 422, body: { code: 'claim.crew' } });
    expect(alone.body.detail).toContain(detail);
    expect(alone.body.cure).toBe('Name Bram, dirk, or elin as well.');
    expect(faultsOf(alone.body)).toEqual([['crew', 'claim.crew']]);
    const two = await claim('ines', petrel, { crew: ['anke', 'cato'] });
    expect(two.body.detail).toContain('anke and cato still learn Laminating');
    expect(two.body.cure).toContain('or name one of them instead');
    expect(await database.owner.claim.count()).toBe(0);
  });

  test('may be with somebody above them', async () => {
    const made = await claim('anke', petrel, { crew: ['anke', 'bram'] });
    expect(made).toMatchObject({ status: 201, body: { crew: [{ id: 'anke' }, { id: 'bram' }] } });
    const { id } = z.object({ id: z.string() }).parse(made.body);
    // Who holds it keeps it: no other crew is set meanwhile.
    const set = await fix(petrel, { crew: ['dirk'] });
    expect(set).toMatchObject({ status: 409, body: { code: 'claim.taken' } });
    expect((await call('bram', 'POST', `/yards/small/claims/${id}/release`)).status).toBe(200);
  });
});

describe('a foreman', () => {
  test('reads the tasks in pages; builders may, owners may not', async () => {
    const first = await call('bram', 'GET', '/yards/small/tasks?first=3');
    expect(idsOf(first.body)).toHaveLength(3);
    const cursor = z.string().parse(first.body.nextCursor);
    const rest = await call('ines', 'GET', `/yards/small/tasks?first=3&after=${cursor}`);
    expect([...idsOf(first.body), ...idsOf(rest.body)].sort()).toEqual(
      [petrel, heron, 'petrel-panel.fair', 'heron-panel.fair'].sort(),
    );
    expect((await call('odile', 'GET', '/yards/small/tasks')).status).toBe(403);
    // As long as an id of a job and one of a step can make it.
    const long = await call('ines', 'GET', path(`${'j'.repeat(120)}.${'s'.repeat(120)}`));
    expect(long).toMatchObject({ status: 404, body: { code: 'record.missing' } });
  });

  test('fixes a start, and the plan keeps it', async () => {
    expect(await fix(petrel, { fixedStart: wednesday })).toMatchObject({
      status: 200,
      body: { fixedStart: wednesday, crew: [], after: [], state: 'waiting' },
    });
    expect(Date.parse((await plannedOf(petrel)).start.at)).toBe(Date.parse(wednesday));
    expect(await fix(petrel, { fixedStart: null })).toMatchObject({ body: { fixedStart: null } });
    expect(Date.parse((await plannedOf(petrel)).start.at)).toBeLessThan(Date.parse(wednesday));
  });

  test('sets a crew; the plan keeps it, and nobody else takes the task', async () => {
    expect(await fix(petrel, { crew: ['elin', 'anke'] })).toMatchObject({
      status: 200,
      body: { crew: [{ id: 'elin' }, { id: 'anke' }] },
    });
    const { crew } = await plannedOf(petrel);
    expect(crew.map(({ personId }) => personId).sort()).toEqual(['anke', 'elin']);
    const taken = await claim('bram', petrel);
    expect(taken).toMatchObject({ status: 422, body: { code: 'claim.crew' } });
    expect(taken.body.detail).toBe('The foreman has set this task for elin and anke.');
    for (const [wrong, at] of [
      [['anke'], 'crew'],
      [['fay'], 'crew[0]'],
      [['nobody'], 'crew[0]'],
      [['bram', 'dirk', 'elin'], 'crew'],
    ] as const) {
      const refused = await fix(petrel, { crew: wrong });
      expect(refused).toMatchObject({ status: 422, body: { code: 'claim.crew' } });
      expect(faultsOf(refused.body)).toEqual([[at, 'claim.crew']]);
    }
    expect(await fix(petrel, { crew: [] })).toMatchObject({ body: { crew: [] } });
  });

  test('orders two tasks; the plan keeps it, and a circle is refused', async () => {
    // The other way round, so that the order is what makes the difference in one of the two.
    for (const [first, second] of [
      [petrel, heron],
      [heron, petrel],
    ]) {
      expect(await fix(second, { after: [first] })).toMatchObject({ body: { after: [first] } });
      const before = await plannedOf(first);
      const after = await plannedOf(second);
      expect(Date.parse(after.start.at)).toBeGreaterThanOrEqual(Date.parse(before.finish.at));
      const circle = await fix(first, { after: [second] });
      expect(circle).toMatchObject({ status: 422, body: { code: 'yard.cycle' } });
      const waits = await claim('bram', second);
      expect(waits).toMatchObject({ status: 409, body: { code: 'claim.not-ready' } });
      expect((await fix(second, { after: [] })).status).toBe(200);
    }
    expect(await fix(petrel, { after: ['petrel-panel.fair'] })).toMatchObject({
      body: { code: 'yard.cycle' },
    });
    expect(await fix(petrel, { after: [petrel] })).toMatchObject({ body: { code: 'yard.cycle' } });
    const unknown = await fix(petrel, { after: [heron, 'nothing'] });
    expect(faultsOf(unknown.body)).toEqual([['after[1]', 'yard.reference']]);
  });

  test('is refused a moment that the plan cannot have, and a change of what is stale', async () => {
    const past = await fix(petrel, { fixedStart: new Date(0).toISOString() });
    expect(faultsOf(past.body)).toEqual([['fixedStart', 'input.field']]);
    const { headers } = await call('ines', 'GET', path(petrel));
    const etag = headers.get('etag') ?? '';
    expect((await call('ines', 'PATCH', path(petrel), { after: [] }, etag)).status).toBe(200);
    expect(await call('ines', 'PATCH', path(petrel), { after: [] }, etag)).toMatchObject({
      status: 412,
      body: { code: 'record.stale' },
    });
    expect((await call('ines', 'PATCH', path(petrel), {})).status).toBe(428);
    expect((await fix(petrel, { crew: [] }, 'bram')).status).toBe(403);
  });

  test('does the same over GraphQL, until the task has begun', async () => {
    const token = tokens.get('ines') ?? '';
    const ask = (query: string) => api.graphql(query, {}, { token });
    const list = await ask(
      `{ task(yardId: "small", id: "${petrel}") { revision } tasks(yardId: "small") { items { id } } }`,
    );
    const { revision } = z
      .object({ data: z.object({ task: z.object({ revision: z.int() }) }) })
      .parse(list.body).data.task;
    const fixed = await ask(
      `mutation { fixTask(yardId: "small", id: "${petrel}", revision: ${String(revision)},
         input: { crew: ["bram"], fixedStart: "${wednesday}", after: ["${heron}"] }) {
           fixedStart after crew { name } state } }`,
    );
    expect(fixed.body).toEqual({
      data: {
        fixTask: {
          fixedStart: wednesday,
          after: [heron],
          crew: [{ name: 'Bram' }],
          state: 'WAITING',
        },
      },
    });
    expect((await fix(petrel, { after: [], fixedStart: null })).status).toBe(200);
    const made = await claim('bram', petrel);
    const { id } = z.object({ id: z.string() }).parse(made.body);
    expect((await call('bram', 'POST', `/yards/small/claims/${id}/start`)).status).toBe(200);
    const late = await fix(petrel, { fixedStart: null });
    expect(late).toMatchObject({ status: 409, body: { code: 'record.in-use' } });
  });

  test('has set work for the same people again, once it is put back', async () => {
    const fair = 'petrel-panel.fair';
    expect((await fix(fair, { crew: ['fay'] })).status).toBe(200);
    const day = 24 * 60 * 60_000;
    const ago = (days: number): Date =>
      new Date(Math.floor((Date.now() - days * day) / 60_000) * 60_000);
    await database.owner.task.updateMany({
      where: { id: petrel },
      data: { state: 'done', startedAt: ago(3), finishedAt: ago(2) },
    });
    await planted(database, 'small');
    const made = await claim('ines', fair, { crew: ['elin', 'fay'] });
    expect(made.status).toBe(201);
    const { id } = z.object({ id: z.string() }).parse(made.body);
    const crew = async (): Promise<unknown> => (await call('ines', 'GET', path(fair))).body.crew;
    expect((await call('ines', 'POST', `/yards/small/claims/${id}/start`)).status).toBe(200);
    expect(await crew()).toHaveLength(2);
    expect((await call('ines', 'POST', `/yards/small/claims/${id}/release`)).status).toBe(200);
    expect(await crew()).toEqual([{ id: 'fay', name: 'fay' }]);
  });
});
