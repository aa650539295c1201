import { getIntrospectionQuery } from 'graphql';
import { describe, expect, test } from 'vitest';
import { smallYardApi } from '../../support/small-yard-api.ts';
import { ask, bearer, posted, type Sent, strictApi } from './ask.ts';
import { subscribe, talk } from './talk.ts';

const { api, database, tokens } = smallYardApi();
const closed = strictApi(database, { introspection: false });

const send = (body: unknown, url = api.url): Promise<Sent> =>
  ask(`${url}/graphql`, posted(body, bearer(tokens.foreman)));
const many = (count: number, field: (n: string) => string): string =>
  Array.from({ length: count }, (_, n) => field(String(n))).join(' ');

describe('a query', () => {
  test.each([
    ['too deep', `{ me ${'{ a '.repeat(12)}${'}'.repeat(12)} }`, /13 levels; at most 12/],
    [
      'with too many fields at the top',
      `{ ${many(21, (n) => `f${n}: me { name }`)} }`,
      /at the top/,
    ],
    ['with too many aliases', `{ me { ${many(51, (n) => `a${n}: name`)} } }`, /51 aliases/],
    ['too long', `{ me { ${'name '.repeat(3_000)} } }`, /longer than 3000/],
    [
      'of fragments that double each other',
      `{ me { ...f0 } } ${many(30, (n) => `fragment f${n} on Me { ...f${String(Number(n) + 1)} ...f${String(Number(n) + 1)} }`)} fragment f30 on Me { name }`,
      /fields; at most 1000/,
    ],
    [
      'for too large an answer',
      `{ ${many(10, (n) => `b${n}: boats(yardId: "small", first: 200) { items { id name refits { id name parts { id name } } } }`)} }`,
      /may give \d+ values; at most 50000/,
    ],
  ])('%s is refused in words', async (_what, query, words) => {
    const answer = await send({ query });
    expect(answer.code).toBe('input.limit');
    expect(answer.text).toMatch(words);
  });

  test('for a page that is too large is refused, by variable as well', async () => {
    const query = 'query ($n: Int) { boats(yardId: "small", first: $n) { items { id } } }';
    expect((await send({ query, variables: { n: 201 } })).code).toBe('input.field');
    expect((await send({ query, variables: { n: 200 } })).code).toBeUndefined();
    const costly = many(
      8,
      (n) =>
        `b${n}: boats(yardId: "small", first: $n) { items { id name refits { id name parts { id name } } } }`,
    );
    const both = `query ($n: Int) { ${costly} }`;
    expect((await send({ query: both, variables: { n: 1 } })).code).toBeUndefined();
    expect((await send({ query: both, variables: { n: 200 } })).code).toBe('input.limit');
  });

  test('is sent alone', async () => {
    const query = '{ me { name } }';
    const answer = await send([{ query }, { query }]);
    expect(answer.code).toBe('input.malformed');
    expect(answer.text).not.toContain('"name"');
  });

  test.each([['null'], ['{}'], ['{"kind": "Document", "definitions": []}'], ['[]'], ['1']])(
    'is text of GraphQL, not %s',
    async (query) => {
      expect((await send({ query })).code).toBe('input.malformed');
    },
  );

  test.each([
    [undefined],
    [7],
    [{}],
    [{ query: 5 }],
    [{ query: '{ me { name } }', variables: 'x' }],
    [{ query: 'mutation { signOut }', operationName: 'another' }],
    ['{"query": '],
    ['{"query": "{ me { name } }", "variables": {"__proto__": {"a": 1}}}'],
  ])('of the form %j is refused without the words of a library', async (body) => {
    const answer = await send(body ?? '');
    expect(answer.code).toMatch(/^input\./);
    expect(answer.text).not.toMatch(/must be object|prototype property|Unexpected|schema is not/);
    expect(answer.text).toContain('"cure"');
  });
});

describe('the schema', () => {
  test('is told where it may be', async () => {
    const answer = await send({ query: getIntrospectionQuery() });
    expect(answer.code).toBeUndefined();
    expect(answer.text).toContain('"RunProgress"');
  });

  test('is not told elsewhere, not even by suggestions', async () => {
    for (const query of [getIntrospectionQuery(), '{ __type(name: "Me") { name } }']) {
      const answer = await send({ query }, closed.url);
      expect(answer.code).toBe('input.limit');
      expect(answer.text).toContain('does not tell its schema');
    }
    const misspelt = { query: '{ me { nam } }' };
    expect((await send(misspelt)).text).toContain('Did you mean');
    const answer = await send(misspelt, closed.url);
    expect(answer.code).toBe('input.malformed');
    expect(answer.text).not.toContain('Did you mean');
    const query = 'mutation ($i: SkillInput!) { createSkill(yardId: "small", input: $i) { id } }';
    const unfit = { query, variables: { i: { id: 'x', nam: 'y' } } };
    expect((await send(unfit)).text).toContain('Did you mean');
    const told = await send(unfit, closed.url);
    expect(told).toMatchObject({ status: 200, code: 'input.malformed' });
    expect(told.text).not.toContain('Did you mean');
    expect((await send({ query: '{ me { __typename } }' }, closed.url)).text).toContain('"Me"');
  });
});

describe('a socket', () => {
  const events = 'subscription { events(yardId: "small") { id } }';

  test('is closed by code where its client does not keep to the protocol', async () => {
    const begun = async () => talk(api.url, tokens.foreman);
    const late = talk(api.url).then((socket) => socket.closed);
    const cases: readonly [unknown, number][] = [
      ['no json', 4400],
      [[], 4400],
      [{ type: 'start', id: '1', payload: { query: events } }, 4400],
      [{ type: 'subscribe', id: '1' }, 4400],
      [{ type: 'subscribe', id: '1', payload: { query: { kind: 'Document' } } }, 4400],
      [{ type: 'subscribe', id: '1', payload: { query: events }, extensions: [] }, 4400],
      [{ type: 'connection_init' }, 4429],
      [`{"type": "ping", "payload": {"a": "${'x'.repeat(300_000)}"}}`, 1009],
    ];
    for (const [message, code] of cases) {
      const socket = await begun();
      socket.say(message);
      expect([message, (await socket.closed).code]).toEqual([message, code]);
    }
    const early = await talk(api.url);
    early.say(subscribe('1', events));
    expect(await early.closed).toEqual({ code: 4401, reason: 'Unauthorized' });
    const old = await talk(api.url, undefined, 'graphql-ws');
    expect((await old.closed).code).toBe(4406);
    const flood = await begun();
    for (let n = 0; n < 300; n += 1) flood.say({ type: 'ping' });
    expect((await flood.closed).code).toBe(1008);
    expect(await late).toEqual({ code: 4408, reason: 'Connection initialisation timeout' });
  });

  test('runs so many subscriptions at once, each id once', async () => {
    const socket = await talk(api.url, tokens.foreman);
    for (let n = 0; n < 20; n += 1) socket.say(subscribe(`s${String(n)}`, events));
    socket.say(subscribe('s20', events));
    expect(JSON.stringify(await socket.reply('s20'))).toMatch(/20 subscriptions run.*input\.limit/);
    socket.say({ type: 'complete', id: 's0' });
    socket.say(subscribe('again', events));
    socket.say(subscribe('s21', events));
    expect((await socket.reply('s21')).type).toBe('error');
    expect(socket.heard.filter(({ id }) => id === 'again')).toEqual([]);
    socket.say(subscribe('s1', events));
    expect((await socket.closed).code).toBe(4409);
  });

  test('takes no query that HTTP would not take', async () => {
    const socket = await talk(closed.url, tokens.foreman);
    const refusals: readonly [string, unknown, string][] = [
      [
        'nothing of the sort',
        'subscription { events(yardId: "small") { nothing } }',
        'input.malformed',
      ],
      ['cut', 'subscription {', 'input.malformed'],
      ['deep', `subscription ${'{ a '.repeat(13)}${'}'.repeat(13)}`, 'input.limit'],
      ['a query', '{ me { name } }', 'input.malformed'],
      ['json', 'null', 'input.malformed'],
      ['schema', '{ __schema { types { name } } }', 'input.limit'],
    ];
    for (const [id, query, code] of refusals) {
      socket.say(subscribe(id, String(query)));
      const { type, payload } = await socket.reply(id);
      expect([id, type, payload]).toEqual([
        id,
        'error',
        [expect.objectContaining({ extensions: expect.objectContaining({ code }) as unknown })],
      ]);
    }
    socket.say(
      subscribe('nul', 'subscription ($y: ID!) { events(yardId: $y) { id } }', {
        variables: { y: 'a\0' },
      }),
    );
    expect(JSON.stringify(await socket.reply('nul'))).toContain('variables.y');
    // Another operation of that id may follow its error.
    socket.say(subscribe('nul', 'subscription { events(yardId: "elsewhere") { id } }'));
    await expect.poll(() => JSON.stringify(socket.heard)).toContain('record.missing');
    socket.end();
  });

  test('says nothing of a fault inside but an id', async () => {
    const socket = await talk(api.url, tokens.foreman);
    socket.say(
      subscribe(
        '1',
        'subscription ($after: ID) { events(yardId: "small", after: $after) { id } }',
        { variables: { after: { a: 1 } } },
      ),
    );
    const { payload } = await socket.reply('1');
    expect(JSON.stringify(payload)).toMatch(/"cure"/);
    expect(JSON.stringify(payload)).not.toMatch(/TypeError|Cannot read|\.ts|node_modules/);
    socket.end();
  });
});
