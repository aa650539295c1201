import { afterAll, beforeAll } from 'vitest';
import { z } from 'zod';
import { type Api, type ApiOptions, startApi } from '../../../apps/api/src/main.ts';
import type { TestDatabase } from '../../support/database.ts';

/** An api of its own over the file's database, with some limit low; what it logs is not shown. */
export function strictApi(
  database: TestDatabase,
  options: Partial<ApiOptions>,
): { readonly url: string } {
  let api: Api | undefined;
  beforeAll(async () => {
    const { serviceUrl: databaseUrl } = database;
    api = await startApi({ port: 0, logLevels: [], ...options, databaseUrl });
  });
  afterAll(() => api?.close());
  return {
    get url() {
      return api?.url ?? '';
    },
  };
}

export interface Sent {
  readonly status: number;
  readonly headers: Headers;
  readonly text: string;
  /** Of the problem, or of the first error of GraphQL. */
  readonly code: string | undefined;
}

const told = z.looseObject({
  code: z.string().optional(),
  errors: z
    .array(z.looseObject({ extensions: z.looseObject({ code: z.string() }).optional() }))
    .optional(),
});

export async function ask(url: string, init: RequestInit = {}): Promise<Sent> {
  const answer = await fetch(url, init);
  const text = await answer.text();
  const isJson = /json/.test(answer.headers.get('content-type') ?? '');
  const { code, errors } = told.parse(isJson ? JSON.parse(text) : {});
  const { status, headers } = answer;
  return { status, headers, text, code: code ?? errors?.[0]?.extensions?.code };
}

export const bearer = (token: string): Record<string, string> => ({
  authorization: `Bearer ${token}`,
});

/** A body of JSON; text is sent as it is. */
export const posted = (
  body: unknown,
  headers: Readonly<Record<string, string>> = {},
): RequestInit => ({
  method: 'POST',
  headers: { 'content-type': 'application/json', ...headers },
  body: typeof body === 'string' ? body : JSON.stringify(body),
});
