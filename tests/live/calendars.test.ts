import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { toLocal } from '#calendar/local-time.ts';
import {
  readCalendar,
  type ReadCalendar,
  type ReadEvent,
} from '#live/calendar/testing/read-calendar.ts';
import { hashOf } from '#persistence/access/token.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { type Answer, faultsOf, testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { planted } from '../support/planted.ts';
import { publishPlan } from '../support/published-plan.ts';
import { twoBoats } from '../support/two-boats.ts';

/** Calendar feeds as clients read them: by two parsers, and without signing in. */
const database = testDatabase();
const publicUrl = new URL('https://yard.example');
const api = testApi(database, { publicUrl, secureCookie: false });

const names = ['ines', 'bram', 'cato', 'odile', 'otto'] as const;
type Name = (typeof names)[number];
const tokens = new Map<Name, string>();
/** What would be another entry, were it written as it stands. */
const bayName = 'Bench; bay, "A"\nEND:VEVENT\nBEGIN:VEVENT';
let sheet: PlanSheet;

function yard(): YardInput {
  const made = twoBoats(toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date);
  return {
    ...made,
    spaces: made.spaces?.map((space) => (space.id === 'bay' ? { ...space, name: bayName } : space)),
  };
}

function call(who: Name, method: string, path: string, body?: unknown): Promise<Answer> {
  const token = tokens.get(who) ?? '';
  return api.rest(method, `/yards/small${path}`, {
    token,
    ...(body === undefined ? {} : { body }),
  });
}

interface Link {
  readonly id: string;
  readonly url: string;
}

async function linkOf(who: Name, body: unknown): Promise<Link> {
  const answer = await call(who, 'POST', '/calendars', body);
  expect(answer.status).toBe(201);
  return z.object({ id: z.string(), url: z.string() }).parse(answer.body);
}

/** The service listens elsewhere than browsers find it. */
const addressOf = ({ url }: Link): string => `${api.url}${new URL(url).pathname}`;

async function read(link: Link): Promise<ReadCalendar> {
  const answer = await fetch(addressOf(link));
  expect(answer.status).toBe(200);
  return readCalendar(await answer.text());
}

const eventOf = ({ events }: ReadCalendar, summary: string): ReadEvent => {
  const found = events.find((event) => event.summary === summary);
  if (!found) throw new Error(`no ${summary} among ${events.map((one) => one.summary).join()}`);
  return found;
};
const brief = ({ events }: ReadCalendar): (readonly [string, number, boolean])[] =>
  events.map(({ summary, sequence, cancelled }) => [summary, sequence, cancelled]);

beforeAll(async () => {
  for (const name of names) await api.addAccount(`${name}@yard.test`);
  for (const name of names) tokens.set(name, await api.signIn(`${name}@yard.test`));
  const token = tokens.get('ines') ?? '';
  const { status, body } = await api.rest('POST', '/yards', { token, body: yard() });
  if (status !== 201) throw new Error(JSON.stringify(body));
  await api.join('small');
  sheet = await publishPlan(database, 'small');
  await planted(database, 'small');
});

/** Who is planned for a task, and the words that its entries have. */
function plannedFor(id: string): { readonly crew: string[]; readonly summary: string } {
  const task = sheet.tasks.find((one) => one.id === id);
  if (!task) throw new Error(`the plan has no ${id}`);
  const crew = task.crew.map(({ personId }) => personId);
  return { crew, summary: `${task.name}, ${task.part} (${task.boat})` };
}

describe('an address of a calendar', () => {
  test('is shown once, is kept as a hash, and opens the feed to whoever has it', async () => {
    const made = await call('bram', 'POST', '/calendars', { kind: 'builder' });
    expect(made).toMatchObject({
      status: 201,
      body: {
        kind: 'builder',
        personId: 'bram',
        name: 'Work of Bram',
        state: 'open',
        spaceId: null,
      },
    });
    const { id, url } = z.object({ id: z.string(), url: z.string() }).parse(made.body);
    const secret = /^https:\/\/yard\.example\/api\/v1\/calendars\/([\w-]{43})\.ics$/.exec(url)?.[1];
    const row = await database.owner.calendarLink.findFirstOrThrow({ where: { id } });
    expect(Buffer.from(row.tokenHash)).toEqual(Buffer.from(hashOf(secret ?? '')));
    const listed = await call('bram', 'GET', '/calendars');
    expect(listed.body).toMatchObject({ items: [{ id, lastReadAt: null }] });
    expect(JSON.stringify(listed.body)).not.toContain(secret);
    expect((await read({ id, url })).name).toBe('Work of Bram');
    const { items } = z
      .object({ items: z.array(z.object({ lastReadAt: z.string().nullable() })) })
      .parse((await call('bram', 'GET', '/calendars')).body);
    expect(items[0].lastReadAt).not.toBeNull();
  });

  test('is not told again where the command is repeated', async () => {
    const sent = {
      token: tokens.get('cato') ?? '',
      headers: { 'idempotency-key': 'calendar-once' },
      body: { kind: 'builder', name: 'Once' },
    };
    const first = await api.rest('POST', '/yards/small/calendars', sent);
    const again = await api.rest('POST', '/yards/small/calendars', sent);
    expect(first.body.url).toMatch(/\.ics$/);
    expect(again).toMatchObject({ status: 201, body: { id: first.body.id, url: null } });
    const links = await database.owner.calendarLink.count({ where: { name: 'Once' } });
    expect(links).toBe(1);
  });

  test('answers as calendar clients want it, and not again what they have', async () => {
    const link = await linkOf('bram', { kind: 'builder', name: 'Mine' });
    const first = await fetch(addressOf(link));
    const etag = first.headers.get('etag') ?? '';
    expect(Object.fromEntries(first.headers)).toMatchObject({
      'content-type': 'text/calendar; charset=utf-8',
      'cache-control': 'private, no-cache',
      'content-disposition': `inline; filename="builder-${link.id}.ics"`,
      'x-content-type-options': 'nosniff',
    });
    expect(etag).toMatch(/^"[\w-]{43}"$/);
    const headers = { 'if-none-match': `"x", W/${etag}` };
    const again = await fetch(addressOf(link), { headers });
    expect([again.status, again.headers.get('etag'), await again.text()]).toEqual([304, etag, '']);
    const head = await fetch(addressOf(link), { method: 'HEAD' });
    expect([head.status, head.headers.get('etag')]).toEqual([200, etag]);
  });

  test('says nothing of itself once revoked, or where there never was one', async () => {
    const link = await linkOf('bram', { kind: 'builder' });
    await read(link);
    expect((await call('cato', 'DELETE', `/calendars/${link.id}`)).status).toBe(404);
    expect((await call('bram', 'DELETE', `/calendars/${link.id}`)).status).toBe(204);
    const wordsOf = async (address: string): Promise<unknown> => {
      const answer = await fetch(address);
      const words = z.record(z.string(), z.unknown()).parse(await answer.json());
      return { status: answer.status, words: { ...words, instance: null } };
    };
    const gone = await wordsOf(addressOf(link));
    expect(gone).toMatchObject({ status: 404, words: { code: 'record.missing' } });
    expect(await wordsOf(`${api.url}/api/v1/calendars/${'x'.repeat(43)}.ics`)).toEqual(gone);
  });

  test('is given only for what its person may read', async () => {
    const refused = async (who: Name, body: unknown): Promise<unknown> => {
      const answer = await call(who, 'POST', '/calendars', body);
      return [answer.status, ...faultsOf(answer.body).map(([path]) => path)];
    };
    expect(await refused('bram', { kind: 'owner' })).toEqual([422, 'kind']);
    expect(await refused('odile', { kind: 'builder' })).toEqual([422, 'kind']);
    expect(await refused('odile', { kind: 'space', spaceId: 'bay' })).toEqual([422, 'kind']);
    expect(await refused('bram', { kind: 'builder', personId: 'cato' })).toEqual([422, 'personId']);
    expect(await refused('ines', { kind: 'builder', personId: 'nobody' })).toEqual([
      422,
      'personId',
    ]);
    // There is no account of hers yet.
    expect(await refused('ines', { kind: 'builder', personId: 'anke' })).toEqual([422, 'personId']);
    expect(await refused('bram', { kind: 'space' })).toEqual([422, 'spaceId']);
    expect(await refused('bram', { kind: 'space', spaceId: 'attic' })).toEqual([422, 'spaceId']);
    expect(await refused('bram', { kind: 'builder', spaceId: 'bay' })).toEqual([422, 'spaceId']);
    expect(
      (await call('ines', 'POST', '/calendars', { kind: 'builder', personId: 'cato' })).status,
    ).toBe(201);
    const listed = await call('cato', 'GET', '/calendars');
    expect(listed.body).toMatchObject({ items: [{ name: 'Work of cato' }, { name: 'Once' }] });
  });

  test('is made, listed and revoked by GraphQL as well', async () => {
    const token = tokens.get('odile') ?? '';
    const made = await api.graphql(
      'mutation { createCalendar(yardId: "small", input: { kind: OWNER }) { id url kind } }',
      {},
      { token },
    );
    const { createCalendar: link } = z
      .object({
        createCalendar: z.object({ id: z.string(), url: z.string(), kind: z.literal('OWNER') }),
      })
      .parse(made.body.data);
    const listed = await api.graphql(
      '{ calendars(yardId: "small") { items { id state } } }',
      {},
      { token },
    );
    expect(listed.body).toMatchObject({
      data: { calendars: { items: [{ id: link.id, state: 'OPEN' }] } },
    });
    await read(link);
    const revoke = `mutation { revokeCalendar(yardId: "small", id: "${link.id}") }`;
    expect((await api.graphql(revoke, {}, { token })).body).toMatchObject({
      data: { revokeCalendar: true },
    });
    expect((await fetch(addressOf(link))).status).toBe(404);
  });
});

describe('a feed', () => {
  test('tells an owner of the own boats and of no other', async () => {
    const [odile, otto] = [
      await linkOf('odile', { kind: 'owner' }),
      await linkOf('otto', { kind: 'owner' }),
    ];
    const [hers, his] = [await read(odile), await read(otto)];
    expect(hers.events.length).toBeGreaterThan(3);
    expect(hers.events.every(({ summary }) => summary.startsWith('Petrel: '))).toBe(true);
    expect(his.events.every(({ summary }) => summary.startsWith('Heron: '))).toBe(true);
    expect(JSON.stringify(hers.events)).not.toMatch(/bram|anke|cato|dirk|elin/i);
    const promised = hers.events.find(({ summary }) => summary.endsWith('promised'));
    expect(promised?.start).toMatch(/^\d{4}-\d\d-\d\d$/);
  });

  test('keeps a space’s name to its place', async () => {
    const link = await linkOf('ines', { kind: 'space', spaceId: 'bay', name: `Bay\r\nX-EVIL:1` });
    const bay = await read(link);
    expect(bay.name).toBe('Bay\nX-EVIL:1');
    const work = sheet.tasks.filter(({ spaceId }) => spaceId === 'bay');
    expect(work.length).toBeGreaterThan(0);
    const told = bay.events.filter(({ summary }) => !summary.startsWith('No dust'));
    expect(new Set(told.map(({ summary }) => summary))).toEqual(
      new Set(work.map(({ name, part, boat }) => `${name}, ${part} (${boat})`)),
    );
    expect(new Set(bay.events.map(({ location }) => location))).toEqual(new Set([bayName]));
  });

  test('has a higher number for what has changed, cancels what is gone, and takes it up again', async () => {
    const task = 'petrel-panel.lay-up';
    const { crew, summary } = plannedFor(task);
    const [who] = crew;
    const other = crew.includes('bram') ? 'cato' : 'bram';
    await accountOf(who);
    const link = await linkOf('ines', { kind: 'builder', personId: who });
    const before = await read(link);
    expect(eventOf(before, summary)).toMatchObject({ sequence: 0, cancelled: false });
    expect(brief(await read(link))).toEqual(brief(before));

    const claimed = await call(other, 'POST', `/tasks/${task}/claims`);
    expect(claimed.status).toBe(201);
    const gone = eventOf(await read(link), summary);
    expect(gone).toMatchObject({ sequence: 1, cancelled: true, alarms: [] });
    expect(gone.uid).toBe(eventOf(before, summary).uid);
    const theirs = await linkOf(other, { kind: 'builder' });
    expect(eventOf(await read(theirs), summary)).toMatchObject({ sequence: 0, cancelled: false });

    const given = z.string().parse(claimed.body.id);
    expect((await call(other, 'POST', `/claims/${given}/release`)).status).toBe(200);
    expect(eventOf(await read(link), summary)).toMatchObject({ sequence: 2, cancelled: false });
    expect(eventOf(await read(theirs), summary)).toMatchObject({ sequence: 1, cancelled: true });

    // Taken up by those for whom it is planned: no news to them.
    const again = await call('ines', 'POST', `/tasks/${task}/claims`, { crew });
    const held = z.string().parse(again.body.id);
    expect(eventOf(await read(link), summary)).toMatchObject({ sequence: 2 });
    const at = new Date(Math.floor(Date.now() / 60_000) * 60_000 - 3_600_000).toISOString();
    expect((await call('ines', 'POST', `/claims/${held}/start`, { at })).status).toBe(200);
    expect(eventOf(await read(link), summary)).toMatchObject({ sequence: 3, start: at });
    expect((await call('ines', 'POST', `/claims/${held}/finish`)).status).toBe(200);
    // Many clients at once count it up once.
    const texts = await Promise.all(
      Array.from({ length: 8 }, async () => (await fetch(addressOf(link))).text()),
    );
    expect(new Set(texts).size).toBe(1);
    expect(eventOf(readCalendar(texts[0]), summary)).toMatchObject({
      sequence: 4,
      cancelled: false,
    });
  });

  test('rings at the window of the film that was laid', async () => {
    const { crew, summary } = plannedFor('petrel-panel.fair');
    await accountOf(crew[0]);
    const link = await linkOf('ines', { kind: 'builder', personId: crew[0] });
    const [alarm] = eventOf(await read(link), summary).alarms;
    expect(alarm.words).toContain('Window opens');
    const { body } = await call('ines', 'GET', '/tasks/petrel-panel.fair');
    // In hours: it was laid in the test before, not last week as was planned.
    const opensAt = Date.parse(z.string().parse(body.opensAt));
    expect(opensAt).toBeGreaterThan(Date.now());
    expect(opensAt - Date.parse(alarm.at)).toBe(15 * 60_000);
  });

  test('ends with its person’s role, and with their coming in', async () => {
    await accountOf('elin');
    const link = await linkOf('ines', { kind: 'builder', personId: 'elin' });
    await read(link);
    const rolesTo = async (roles: string[]): Promise<void> => {
      const person = await call('ines', 'GET', '/people/elin');
      const etag = person.headers.get('etag') ?? '';
      const { status } = await api.rest('PATCH', '/yards/small/people/elin', {
        token: tokens.get('ines') ?? '',
        headers: { 'if-match': etag },
        body: { roles },
      });
      expect(status).toBe(200);
    };
    await rolesTo(['owner']);
    expect((await fetch(addressOf(link))).status).toBe(404);
    await rolesTo(['builder']);
    await read(link);
    const etag = (await call('ines', 'GET', '/people/elin')).headers.get('etag') ?? '';
    const ended = await api.rest('DELETE', '/yards/small/people/elin/account', {
      token: tokens.get('ines') ?? '',
      headers: { 'if-match': etag },
    });
    expect(ended.status).toBe(204);
    expect((await fetch(addressOf(link))).status).toBe(404);
    const row = await database.owner.calendarLink.findFirstOrThrow({ where: { id: link.id } });
    expect(row.revokedAt).not.toBeNull();
  });
});

/** The session of somebody who has an account by then. */
async function accountOf(who: string): Promise<string> {
  const known = tokens.get(who as Name);
  if (known !== undefined) return known;
  await api.addAccount(`${who}@yard.test`);
  await api.join('small');
  const token = await api.signIn(`${who}@yard.test`);
  tokens.set(who as Name, token);
  return token;
}
