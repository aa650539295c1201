import type { Client } from 'graphql-ws';
import { z } from 'zod';
import { subscriber } from '../../support/streams.ts';
import type { Request } from '../requests/fill.ts';
import type { Answer } from '../requests/send.ts';

const bodySchema = z.object({
  query: z.string(),
  variables: z.record(z.string(), z.unknown()).default({}),
});

/** What a socket may say nothing for, ms. */
const patienceMs = 150;

/** Subscriptions over sockets, one for each caller; what was made to be no JSON is sent as no query. */
export function subscriptions(url: string): {
  first(request: Request): Promise<Answer>;
  close(): Promise<void>;
} {
  const clients = new Map<string, Client>();
  const clientOf = (token: string): Client => {
    const client = clients.get(token) ?? subscriber(url, token);
    clients.set(token, client);
    return client;
  };
  return {
    first: async ({ headers, body = '' }) => {
      const token = (headers['authorization'] ?? '').replace('Bearer ', '');
      const told = clientOf(token).iterate(payloadOf(body));
      const silence = Promise.withResolvers<null>();
      const timer = setTimeout(() => silence.resolve(null), patienceMs);
      try {
        const event = await Promise.race([told.next(), silence.promise]);
        return answerOf(event === null || event.done === true ? { data: null } : event.value);
      } catch (refused) {
        return answerOf({ errors: refused });
      } finally {
        clearTimeout(timer);
        await told.return?.();
      }
    },
    close: async () => {
      for (const client of clients.values()) await client.dispose();
    },
  };
}

function payloadOf(body: string): z.output<typeof bodySchema> {
  try {
    return bodySchema.parse(JSON.parse(body));
  } catch {
    return { query: body, variables: {} };
  }
}

const answerOf = (value: unknown): Answer => ({
  status: 200,
  headers: {},
  text: JSON.stringify(value),
  statements: [],
});
