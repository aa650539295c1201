import { beforeAll, expect } from 'vitest';
import { z } from 'zod';
import { type Answer, testApi, type TestApi } from './api.ts';
import { cureYard } from './cure-yard.ts';
import { testDatabase, type TestDatabase } from './database.ts';

type Who = 'ines' | 'bram';

export interface CureApi {
  readonly api: TestApi;
  readonly database: TestDatabase;
  /** Of the foreman and a builder. */
  readonly token: Readonly<Record<Who, string>>;
  /** An address of the yard `cure`. */
  path(below: string): string;
  get(below: string, who?: Who): Promise<Answer>;
  post(below: string, body: unknown, who?: Who): Promise<Answer>;
  /** The foreman's change of a record, with the revision that it has now. */
  patch(below: string, body: unknown): Promise<Answer>;
  remove(below: string, who?: Who): Promise<Answer>;
  /** The one field of a GraphQL query or mutation that answers without an error. */
  ask(text: string, kind?: 'query' | 'mutation'): Promise<unknown>;
}

/** The service with the yard of `cure-yard.ts` in it. */
export function cureApi(): CureApi {
  const database = testDatabase();
  const api = testApi(database);
  const token = { ines: '', bram: '' };
  beforeAll(async () => {
    for (const who of ['ines', 'bram'] as const) {
      await api.addAccount(`${who}@yard.test`);
      token[who] = await api.signIn(`${who}@yard.test`);
    }
    const made = await api.rest('POST', '/yards', { token: token.ines, body: cureYard() });
    if (made.status !== 201) throw new Error(JSON.stringify(made.body));
    await api.join('cure');
  });

  const path = (below: string): string => `/yards/cure/${below}`;
  const get: CureApi['get'] = (below, who = 'bram') =>
    api.rest('GET', path(below), { token: token[who] });
  const guarded = async (method: string, below: string, who: Who, body?: unknown) => {
    const { headers } = await get(below, 'ines');
    const etag = headers.get('etag');
    return api.rest(method, path(below), {
      token: token[who],
      ...(body === undefined ? {} : { body }),
      headers: etag === null ? {} : { 'if-match': etag },
    });
  };
  return {
    api,
    database,
    token,
    path,
    get,
    post: (below, body, who = 'bram') => api.rest('POST', path(below), { token: token[who], body }),
    patch: (below, body) => guarded('PATCH', below, 'ines', body),
    remove: (below, who = 'ines') => guarded('DELETE', below, who),
    ask: async (text, kind = 'query') => {
      const { body } = await api.graphql(`${kind} { ${text} }`, {}, { token: token.bram });
      expect(body.errors).toBeUndefined();
      const { data } = z.object({ data: z.record(z.string(), z.unknown()) }).parse(body);
      return Object.values(data)[0];
    },
  };
}

/** A whole minute before now; negative: after it. */
export const minuteAgo = (minutes: number): string =>
  new Date(Math.floor(Date.now() / 60_000 - minutes) * 60_000).toISOString().replace('.000', '');

/** Of the invented sheet at 20 °C: log(time) is straight over 1/T between 10 °C and 25 °C (libs/cure). */
export function at20(at10: number, at25: number): number {
  const inverse = (celsius: number): number => 1 / (celsius + 273.15);
  const share = (inverse(20) - inverse(25)) / (inverse(10) - inverse(25));
  return at25 * (at10 / at25) ** share;
}

export const minutesBetween = (from: string, to: string): number =>
  (Date.parse(to) - Date.parse(from)) / 60_000;
