import { afterAll, beforeAll } from 'vitest';
import { z } from 'zod';
import { joinMember } from '#persistence/access/join.ts';
import { type Api, type ApiOptions, startApi } from '../../apps/api/src/main.ts';
import { hashPassword } from '../../apps/api/src/platform/access/password.ts';
import type { TestDatabase } from './database.ts';

const jsonObject = z.record(z.string(), z.unknown());

export interface Answer {
  readonly status: number;
  readonly headers: Headers;
  /** The JSON of the answer; empty where there is none. */
  readonly body: z.output<typeof jsonObject>;
}

export interface Sending {
  readonly token?: string;
  /** Text is sent as it is. */
  readonly body?: unknown;
  readonly headers?: Readonly<Record<string, string>>;
}

export interface TestApi {
  /** Base address, once the tests run. */
  readonly url: string;
  /** `path` is below /api/v1. */
  rest(method: string, path: string, sending?: Sending): Promise<Answer>;
  graphql(query: string, variables?: unknown, sending?: Omit<Sending, 'body'>): Promise<Answer>;
  /** Makes an account, as a start does for the demo. */
  addAccount(email: string): Promise<void>;
  /** As if each person of the yard who has an account under their e-mail had been invited and come. */
  join(yardId: string): Promise<void>;
  /** The token of a fresh session. */
  signIn(email: string, password?: string): Promise<string>;
}

/** What of the service's configuration is not as in all tests. */
export type TestApiOptions = Omit<Partial<ApiOptions>, 'databaseUrl' | 'port'>;

export const testPassword = 'a long enough password';
/** Of all accounts: what a hash costs is meant for whoever guesses, not for the making of each of them. */
const testHash = hashPassword(testPassword);

/** The real service on a free port over the file's own database; started before its tests, stopped after. */
export function testApi(database: TestDatabase, options: TestApiOptions = {}): TestApi {
  let api: Api | undefined;
  beforeAll(async () => {
    api = await startApi({ ...options, databaseUrl: database.serviceUrl, port: 0 });
  });
  afterAll(() => api?.close());

  const base = (): string => {
    if (!api) throw new Error('the service is started before the first test, not earlier');
    return api.url;
  };
  const rest: TestApi['rest'] = (method, path, sending) =>
    send(`${base()}/api/v1${path}`, method, sending);

  return {
    get url() {
      return base();
    },
    rest,
    graphql: (query, variables, sending = {}) =>
      send(`${base()}/graphql`, 'POST', { ...sending, body: { query, variables } }),
    addAccount: async (email) => {
      const data = { email, name: email.split('@')[0], passwordHash: await testHash };
      await database.owner.account.create({ data });
    },
    join: async (yardId) => {
      const members = await database.owner.member.findMany({
        where: { yardId, accountId: null, email: { not: null } },
      });
      const emails = members.map(({ email }) => (email ?? '').toLowerCase());
      const accounts = await database.owner.account.findMany({ where: { email: { in: emails } } });
      for (const { id: accountId, email } of accounts) {
        const { id: memberId } = members[emails.indexOf(email)];
        await joinMember(database.owner, { yardId, memberId, accountId });
      }
    },
    signIn: async (email, password = testPassword) => {
      const { body } = await rest('POST', '/sessions', { body: { email, password } });
      return z.string().parse(body.token);
    },
  };
}

async function send(
  url: string,
  method: string,
  { token, body, headers = {} }: Sending = {},
): Promise<Answer> {
  const answer = await fetch(url, {
    method,
    headers: {
      ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
      ...headers,
    },
    ...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
  });
  const text = await answer.text();
  const isJson = /json/.test(answer.headers.get('content-type') ?? '');
  return {
    status: answer.status,
    headers: answer.headers,
    body: isJson ? jsonObject.parse(JSON.parse(text)) : {},
  };
}

/** What a problem names, as `[path, code]`. */
export function faultsOf(problem: Answer['body']): [path: string, code: string][] {
  const shape = z.object({ errors: z.array(z.object({ path: z.string(), code: z.string() })) });
  return shape.parse(problem).errors.map(({ path, code }) => [path, code]);
}

export function idsOf(page: Answer['body']): string[] {
  const shape = z.object({ items: z.array(z.object({ id: z.string() })) });
  return shape.parse(page).items.map(({ id }) => id);
}
