import { afterAll, beforeAll } from 'vitest';
import { type Api, startApi } from '../../apps/api/src/main.ts';
import { hashPassword } from '../../apps/api/src/platform/access/password.ts';
import type { TestDatabase } from './database.ts';

export interface Answer {
  readonly status: number;
  readonly headers: Headers;
  /** The JSON of the answer; null where there is none. */
  readonly body: JsonValue;
}

/** What a test reaches into without declaring the shape of every answer. */
export interface JsonValue {
  readonly [key: string]: JsonValue;
}

export interface Sending {
  readonly token?: string;
  readonly body?: unknown;
  readonly headers?: Readonly<Record<string, string>>;
}

export interface TestApi {
  /** Base address, once the tests run. */
  readonly url: string;
  rest(method: string, path: string, sending?: Sending): Promise<Answer>;
  graphql(query: string, variables?: unknown, sending?: Omit<Sending, 'body'>): Promise<Answer>;
  /** Makes an account, as a start does for the demo. */
  addAccount(email: string): Promise<void>;
  /** The token of a fresh session. */
  signIn(email: string): Promise<string>;
}

export const testPassword = 'a long enough password';

/** The real service on a free port over the file's own database; started before its tests, stopped after. */
export function testApi(database: TestDatabase): TestApi {
  let api: Api | undefined;
  beforeAll(async () => {
    api = await startApi({ databaseUrl: database.serviceUrl, port: 0 });
  });
  afterAll(() => api?.close());

  const url = (): string => {
    if (!api) throw new Error('the service is started before the first test, not earlier');
    return api.url;
  };
  const rest: TestApi['rest'] = async (method, path, { token, body, headers = {} } = {}) => {
    const answer = await fetch(`${url()}${path.startsWith('/graphql') ? '' : '/api/v1'}${path}`, {
      method,
      headers: {
        ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        ...headers,
      },
      ...(body === undefined
        ? {}
        : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
    });
    const text = await answer.text();
    const isJson = /json/.test(answer.headers.get('content-type') ?? '');
    return {
      status: answer.status,
      headers: answer.headers,
      body: isJson ? JSON.parse(text) : null,
    };
  };

  return {
    get url() {
      return url();
    },
    rest,
    graphql: (query, variables, sending = {}) =>
      rest('POST', '/graphql', { ...sending, body: { query, variables } }),
    addAccount: async (email) => {
      const passwordHash = await hashPassword(testPassword);
      await database.service.account.create({
        data: { email, name: email.split('@')[0], passwordHash },
      });
    },
    signIn: async (email) => {
      const { body } = await rest('POST', '/sessions', { body: { email, password: testPassword } });
      return String(body.token);
    },
  };
}
