import { connect } from 'node:net';
import { describe, expect, test } from 'vitest';
import { faultsOf } from '../../support/api.ts';
import { smallYardApi } from '../../support/small-yard-api.ts';
import { ask, bearer, posted, strictApi } from './ask.ts';

const { api, database, tokens } = smallYardApi();
const secure = strictApi(database, {
  publicUrl: new URL('https://yard.example'),
  allowPublicDemo: true,
  secureCookie: true,
});

describe('the headers of every answer', () => {
  test.each([
    ['data', '/api/v1/health', 200],
    ['a refusal', '/api/v1/me', 401],
    ['nothing there', '/api/v1/nothing', 404],
    ['nothing there, of no prefix', '/nothing', 404],
    ['GraphQL', '/graphql?query={me{name}}', 200],
    ['a bad address', '/api/v1/%zz', 400],
  ])('of %s are strict', async (_what, path, status) => {
    const { headers, status: is } = await ask(`${api.url}${path}`);
    expect(is).toBe(status);
    expect(headers.get('content-security-policy')).toBe(
      "default-src 'none';base-uri 'none';form-action 'none';frame-ancestors 'none'",
    );
    expect(Object.fromEntries(headers)).toMatchObject({
      'cache-control': 'no-store',
      'x-content-type-options': 'nosniff',
      'x-frame-options': 'DENY',
      'referrer-policy': 'no-referrer',
      'cross-origin-resource-policy': 'same-origin',
      'x-request-id': expect.stringMatching(/^[0-9a-f-]{36}$/) as string,
    });
    for (const banner of ['server', 'x-powered-by', 'via']) expect(headers.has(banner)).toBe(false);
    expect(headers.has('strict-transport-security')).toBe(false);
  });

  test('promise TLS only behind TLS', async () => {
    const { headers } = await ask(`${secure.url}/api/v1/health`);
    expect(headers.get('strict-transport-security')).toBe('max-age=31536000');
  });

  test('let the page of the documentation have what it serves, and no script of elsewhere or inline', async () => {
    const page = await ask(`${api.url}/api/v1/docs`);
    expect(page.status).toBe(200);
    const policy = page.headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self';");
    expect(policy).toContain("frame-ancestors 'none'");
    // What the policy would break is not in the page.
    expect(page.text).not.toMatch(/<script(?![^>]*\bsrc=)[^>]*>|\son\w+=|javascript:/i);
  });
});

describe('what cannot be kept or read', () => {
  const skills = (): string => `${api.url}/api/v1/yards/small/skills`;

  test.each([
    ['NUL', '{"id": "x", "name": "a\\u0000b"}', 'name'],
    ['half a surrogate pair', '{"id": "x", "name": "\\ud83d"}', 'name'],
    ['NUL in the name of a field', '{"id": "x", "na\\u0000me": "x"}', 'na\uFFFDme'],
  ])('%s in a body is refused by its path', async (_what, body, path) => {
    const answer = await ask(skills(), posted(body, bearer(tokens.foreman)));
    expect(answer).toMatchObject({ status: 422, code: 'input.field' });
    expect(faultsOf(JSON.parse(answer.text) as Record<string, unknown>)).toEqual([
      [path, 'input.field'],
    ]);
  });

  test('NUL in an address or its query is refused', async () => {
    for (const address of [`${skills()}/a%00b`, `${skills()}?after=%00`]) {
      const answer = await ask(address, { headers: bearer(tokens.foreman) });
      expect(answer).toMatchObject({ status: 422, code: 'input.field' });
    }
    const login = await ask(
      `${api.url}/api/v1/sessions`,
      posted('{"email": "a\\u0000@yard.test", "password": "x"}'),
    );
    expect(login).toMatchObject({ status: 422, code: 'input.field' });
  });

  test('NUL in GraphQL is refused, in variables and in literals', async () => {
    const sent = async (body: unknown) =>
      ask(`${api.url}/graphql`, posted(body, bearer(tokens.foreman)));
    const query = 'query ($id: ID!) { skill(yardId: "small", id: $id) { id } }';
    const variables = JSON.stringify({ query, variables: { id: 'a\0' } });
    expect(await sent(variables)).toMatchObject({ status: 200, code: 'input.field' });
    const literal = '{ skill(yardId: "small", id: "a\\u0000") { id } }';
    expect((await sent({ query: literal })).code).toBe('input.field');
    const got = `${api.url}/graphql?query=${encodeURIComponent(query)}&variables=${encodeURIComponent('{"id": "a\\u0000"}')}`;
    expect((await ask(got, { headers: bearer(tokens.foreman) })).code).toBe('input.field');
  });

  test.each([
    ['names that reach into the program', '{"id": "x", "__proto__": {"admin": true}}', 400],
    ['the same by constructor', '{"constructor": {"prototype": {"admin": true}}}', 400],
    ['half of JSON', '{"id": ', 400],
    ['nesting without end', `${'['.repeat(50_000)}${']'.repeat(50_000)}`, 422],
  ])('%s in a body', async (_what, body, status) => {
    const answer = await ask(skills(), posted(body, bearer(tokens.foreman)));
    expect(answer.status).toBe(status);
    expect(answer.headers.get('content-type')).toContain('application/problem+json');
    expect(answer.text).not.toMatch(/prototype property|Unexpected|position|SyntaxError|at .*\.js/);
    expect(Reflect.get({}, 'admin')).toBeUndefined();
  });

  test.each([
    ['an address that is none', '/api/v1/%zz', 400],
    ['an address with too long an id', `/api/v1/yards/${'a'.repeat(400)}`, 414],
    ['no address at all', '/etc/passwd', 404],
    ['a way out of the documentation', '/api/v1/docs/..%2f..%2fpackage.json', 404],
  ])('%s is answered as a problem', async (_what, path, status) => {
    const answer = await ask(`${api.url}${path}`);
    expect(answer.status).toBe(status);
    expect(answer.headers.get('content-type')).toContain('application/problem+json');
    expect(answer.text).toContain('"cure"');
    expect(answer.text).not.toMatch(/FST_|Cannot GET|node_modules|\/work\//);
  });

  test('what is no request of HTTP', async () => {
    const { port } = new URL(api.url);
    const socket = connect(Number(port), '127.0.0.1');
    socket.end('GARBAGE\r\n\r\n');
    let text = '';
    for await (const chunk of socket) text += String(chunk);
    expect(text).toMatch(/^HTTP\/1\.1 400 Bad Request\r\n/);
    expect(text).toContain('application/problem+json');
    expect(text).toContain('input.malformed');
  });
});
