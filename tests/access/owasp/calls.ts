import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { z } from 'zod';
import { type Answer, codeOf, send } from '../requests/send.ts';

export interface Told extends Answer {
  readonly code: string | null;
  /** Its JSON; an empty object where it has none. */
  readonly json: Readonly<Record<string, unknown>>;
}

export interface Sending {
  readonly token?: string;
  readonly body?: unknown;
  readonly headers?: Readonly<Record<string, string>>;
}

const object = z.record(z.string(), z.unknown());

/** Calls of one service; `path` begins below /api/v1 unless it begins with a slash. */
export function callsOf(app: NestFastifyApplication) {
  const call = async (method: string, path: string, sending: Sending = {}): Promise<Told> => {
    const { token, body, headers = {} } = sending;
    const answer = await send(app, {
      method,
      url: path.startsWith('/') ? path : `/api/v1/${path}`,
      headers: { ...(token === undefined ? {} : { authorization: `Bearer ${token}` }), ...headers },
      ...(body === undefined
        ? {}
        : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
    });
    const json = answer.text.startsWith('{') ? object.parse(JSON.parse(answer.text)) : {};
    return { ...answer, code: codeOf(answer), json };
  };
  const graphql = (
    query: string,
    sending: Sending & { variables?: unknown } = {},
  ): Promise<Told> => {
    const { variables, ...rest } = sending;
    return call('POST', '/graphql', { ...rest, body: { query, variables } });
  };
  return { call, graphql };
}

export type Calls = ReturnType<typeof callsOf>;
