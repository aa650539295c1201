import { setTimeout as sleep } from 'node:timers/promises';
import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { toLocal } from '#calendar/local-time.ts';
import { type Answer, faultsOf, testApi } from '#tests/support/api.ts';
import { testDatabase } from '#tests/support/database.ts';
import { publishPlan } from '#tests/support/published-plan.ts';
import { serverSent, subscriber } from '#tests/support/streams.ts';
import { twoBoats } from '#tests/support/two-boats.ts';

/** What two owners hear of their boats: what has become of them, and that something has. */
const database = testDatabase();
const api = testApi(database);
const zone = 'Europe/London';
const dayMs = 86_400_000;
const daysAgo = (days: number): Date =>
  new Date(Math.floor((Date.now() - days * dayMs) / 60_000) * 60_000);

const people = ['ines', 'odile', 'otto'] as const;
type Name = (typeof people)[number];
const tokens = new Map<Name, string>();
const call = (who: Name, method: string, path: string, body?: object): Promise<Answer> =>
  api.rest(method, `/yards/small${path}`, {
    token: tokens.get(who) ?? '',
    ...(body === undefined ? {} : { body }),
  });

const historySchema = z.object({
  since: z.string(),
  finishes: z.array(z.looseObject({ days: z.number().nullable(), words: z.string() })),
  items: z.array(
    z.object({
      at: z.string(),
      date: z.string(),
      kind: z.enum(['plan', 'work', 'snag', 'change']),
      words: z.array(z.string()),
      why: z.array(z.string()),
      subjectId: z.string().nullable(),
    }),
  ),
});

async function historyOf(who: Name, boat: string, query = '') {
  const { status, body } = await call(who, 'GET', `/my-boats/${boat}/history${query}`);
  expect(status, JSON.stringify(body)).toBe(200);
  return { text: JSON.stringify(body), ...historySchema.parse(body) };
}

async function publishedId(): Promise<string> {
  const { planId } = await database.owner.publishedPlan.findUniqueOrThrow({
    where: { yardId: 'small' },
  });
  return planId;
}

const causes = [
  '"lay-up" (Petrel, Hatch of Petrel) began Tue 3 Nov 07:30, 2 h later than planned.',
  '"fair" (Petrel, Hatch of Petrel) was set for Bram.',
  '"paint" (Petrel, Hatch of Petrel) was given up: the Herons (Ottos) came first: he shouted.',
  '"lay-up" (Heron, Hatch of Heron) went on past its expected end.',
  'What is known of Bram was changed.',
];

beforeAll(async () => {
  for (const name of people) {
    await api.addAccount(`${name}@yard.test`);
    tokens.set(name, await api.signIn(`${name}@yard.test`));
  }
  const yard = twoBoats(toLocal(Math.floor(Date.now() / 60_000), zone).date);
  const made = await api.rest('POST', '/yards', { token: tokens.get('ines') ?? '', body: yard });
  if (made.status !== 201) throw new Error(JSON.stringify(made.body));
  await api.join('small');
  await publishPlan(database, 'small');
  await database.owner.$executeRawUnsafe('ALTER TABLE publishing DISABLE TRIGGER immutable');
  await database.owner.publishing.updateMany({
    where: { yardId: 'small' },
    data: { publishedAt: daysAgo(9) },
  });
  const basePlanId = await publishedId();
  // The yard cannot begin on the Petrel for ten days yet.
  await database.owner.refit.update({
    where: { yardId_id: { yardId: 'small', id: 'petrel-refit' } },
    data: { release: new Date(Math.floor(Date.now() / dayMs + 10) * dayMs) },
  });
  await publishPlan(database, 'small');
  await database.owner.candidate.create({
    data: {
      yardId: 'small',
      planId: await publishedId(),
      basePlanId,
      state: 'published',
      moved: 2,
      disturbance: 1,
      cause: causes,
    },
  });
});

describe('the history of a boat', () => {
  test('says by how much its finish has moved since, and what is done on other days', async () => {
    const { finishes, items } = await historyOf('odile', 'petrel');
    expect(finishes).toHaveLength(1);
    const [{ days, words }] = finishes;
    expect(days).toBeGreaterThan(0);
    expect(words).toContain(`${String(days)} days later.`);
    const [plan] = items.filter(({ kind }) => kind === 'plan');
    expect(plan.words[0]).toBe(words);
    expect(plan.words.slice(1).join(' ')).toMatch(
      /lay-up, Hatch of Petrel: \w+ \d+ \w+ instead of/,
    );
  });

  test('tells why as far as it is about the own boat, without people and other boats', async () => {
    const { text, items } = await historyOf('odile', 'petrel');
    expect(items.find(({ kind }) => kind === 'plan')?.why).toEqual([
      causes[0],
      '"fair" (Petrel, Hatch of Petrel) did not go as planned.',
      '"paint" (Petrel, Hatch of Petrel) was given up.',
      'And other reasons in the yard.',
    ]);
    expect(text).not.toMatch(/heron|otto|bram/i);

    await database.owner.yard.update({ where: { id: 'small' }, data: { ownersSeeCrew: true } });
    const shown = await historyOf('odile', 'petrel');
    expect(shown.items.find(({ kind }) => kind === 'plan')?.why).toContain(causes[1]);
    expect(shown.text).not.toMatch(/heron|otto/i);
    await database.owner.yard.update({ where: { id: 'small' }, data: { ownersSeeCrew: false } });
  });

  test('of the other boat has nothing of this one', async () => {
    const { text } = await historyOf('otto', 'heron');
    expect(text).not.toMatch(/petrel|odile|bram/i);
  });

  test('is not there for whoever does not own the boat', async () => {
    for (const [who, boat] of [
      ['otto', 'petrel'],
      ['odile', 'heron'],
      ['odile', 'none-such'],
    ] as const) {
      const { status, body } = await call(who, 'GET', `/my-boats/${boat}/history`);
      expect([status, body.code]).toEqual([404, 'record.missing']);
    }
    expect((await call('ines', 'GET', '/my-boats/petrel/history')).body.code).toBe('access.role');
  });

  test('goes back as far as is asked for, and no further than 92 days', async () => {
    const first = await historyOf('odile', 'petrel', `?since=${daysAgo(20).toISOString()}`);
    const plans = first.items.filter(({ kind }) => kind === 'plan');
    expect(plans).toHaveLength(2);
    expect(plans[1].words[0]).toContain('planned to be finished');
    expect(first.finishes[0]).toMatchObject({ before: null, days: null });

    const old = await call('odile', 'GET', `/my-boats/petrel/history?since=2020-01-01T00:00:00Z`);
    expect(old.status).toBe(422);
    expect(faultsOf(old.body)).toEqual([['since', 'input.field']]);
    const wrong = await call('odile', 'GET', '/my-boats/petrel/history?since=yesterday');
    expect(faultsOf(wrong.body)).toEqual([['since', 'input.field']]);
  });

  test('has work that was done, snags that are shown, changes asked for and decided', async () => {
    const where = { yardId_id: { yardId: 'small', id: 'petrel-panel.lay-up' } };
    await database.owner.task.update({
      where,
      data: { state: 'done', startedAt: daysAgo(2), finishedAt: daysAgo(1) },
    });
    const raised = { yardId: 'small', raisedById: 'bram', foundAt: daysAgo(1) };
    const snag = (partId: string, words: string, shownToOwner: boolean) => ({
      data: { ...raised, partId, kind: 'void', words, shownToOwner },
    });
    await database.owner.snag.create(snag('petrel-hatch', 'A void at the forward edge.', true));
    await database.owner.snag.create(snag('petrel-hatch', 'Not for the owner.', false));
    await database.owner.snag.create(snag('heron-hatch', 'Of another boat.', true));
    const change = { kind: 'size', partId: 'petrel-hatch', areaM2: 3 };
    const asked = await call('odile', 'POST', '/changes', { change, words: 'A bit more.' });
    expect(asked.status).toBe(201);
    const id = z.string().parse(asked.body.id);
    await call('odile', 'POST', `/changes/${id}/withdraw`, { note: 'No need.' });

    const { items, text } = await historyOf('odile', 'petrel');
    expect(items.map(({ kind }) => kind).sort()).toEqual([
      'change',
      'change',
      'plan',
      'snag',
      'work',
    ]);
    expect(items.map(({ at }) => at)).toEqual(
      items
        .map(({ at }) => at)
        .sort()
        .reverse(),
    );
    expect(text).toContain('Done: lay-up, Hatch of Petrel.');
    expect(text).toContain('A void at the forward edge.');
    expect(text).not.toMatch(/Not for the owner|Of another boat/);
    const said = items.filter(({ kind }) => kind === 'change');
    expect(
      said.map(({ words, why, subjectId }) => [words[0].slice(0, 24), why, subjectId]),
    ).toEqual([
      ['You withdrew the change:', ['No need.'], id],
      ['You asked for a change: ', [], id],
    ]);
    const otto = await historyOf('otto', 'heron');
    expect(otto.text).toContain('Of another boat.');
    expect(otto.text).not.toMatch(/petrel|A void at/i);
  });
});

/** The foreman gives the boat another name. */
async function rename(boat: string, name: string): Promise<void> {
  const { headers } = await call('ines', 'GET', `/boats/${boat}`);
  const { status } = await api.rest('PATCH', `/yards/small/boats/${boat}`, {
    token: tokens.get('ines') ?? '',
    body: { name },
    headers: { 'if-match': headers.get('etag') ?? '' },
  });
  expect(status).toBe(200);
}

describe('word of the own boats', () => {
  const address = (): string => `${api.url}/api/v1/yards/small/my-boats/stream`;

  test('comes when something of them changes, and not when something of others does', async () => {
    const token = tokens.get('odile') ?? '';
    const leaving = new AbortController();
    const stream = serverSent(address(), { token, signal: leaving.signal });
    const first = stream.next();
    await rename('heron', 'Heron II');
    await rename('petrel', 'Petrel II');
    const { value } = await first;
    expect(value).toMatchObject({ event: 'my-boat-changed', data: { boatIds: ['petrel'] } });
    const next = stream.next();
    await rename('heron', 'Heron');
    await rename('petrel', 'Petrel');
    expect((await next).value).toMatchObject({ data: { boatIds: ['petrel'] } });

    const last = value?.id;
    leaving.abort();
    await stream.return();
    // Whoever was away is told to read again.
    const back = serverSent(address(), { token, ...(last ? { lastEventId: last } : {}) });
    expect((await back.next()).value).toMatchObject({ data: { boatIds: ['petrel'] } });
    await back.return();
  });

  test('by subscription too; it ends with the session that it was opened by', async () => {
    const token = await api.signIn('otto@yard.test');
    const client = subscriber(api.url, token);
    const heard = client.iterate<{ myBoatChanged: { boatIds: string[] } }>({
      query: 'subscription { myBoatChanged(yardId: "small") { eventId boatIds } }',
    });
    const first = heard.next();
    // The subscription stands once a change of the boat comes through.
    const pause = 500;
    for (let k = 0; k < 20; k += 1) {
      await rename('heron', `Heron ${String(k)}`);
      const waited = sleep(pause, 'nothing yet');
      if ((await Promise.race([first, waited])) !== 'nothing yet') break;
    }
    expect(await first).toMatchObject({
      done: false,
      value: { data: { myBoatChanged: { boatIds: ['heron'] } } },
    });
    await api.rest('DELETE', '/sessions/current', { token });
    const rest = [];
    for await (const one of heard) rest.push(one);
    expect(rest.at(-1)?.errors).toMatchObject([{ extensions: { code: 'access.sign-in' } }]);
    await client.dispose();
  });

  test('is refused to whoever owns no boat there', async () => {
    const { status, body } = await call('ines', 'GET', '/my-boats/stream');
    expect([status, body.code]).toEqual([403, 'access.role']);
  });
});
