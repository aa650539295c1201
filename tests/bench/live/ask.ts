import { z } from 'zod';

/** What a call answers; with a body it is a POST. Throws unless it was done. */
export async function asked(url: string, token: string, body?: object): Promise<unknown> {
  const answer = await fetch(url, {
    headers: {
      authorization: `Bearer ${token}`,
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
    },
    ...(body === undefined ? {} : { method: 'POST', body: JSON.stringify(body) }),
  });
  const said: unknown = await answer.json();
  if (answer.status < 300) return said;
  throw new Error(`${url} is answered with ${String(answer.status)}: ${JSON.stringify(said)}`);
}

const withId = z.object({ id: z.string() });
export const idOf = (answer: unknown): string => withId.parse(answer).id;
