import { expect } from 'vitest';
import { z } from 'zod';
import type { Answer } from './api.ts';
import { type SmallYardApi } from './small-yard-api.ts';

/** Strong enough for a new account. */
export const newPassword = 'ochre bollard whispers tangent';

export const invitationsSchema = z.object({
  items: z.array(z.object({ id: z.string(), personId: z.string(), state: z.string() }).loose()),
});

/** The secret in the link of an invitation just made. */
export function linkToken({ status, body }: Answer): string {
  expect(status).toBe(201);
  const link = new URL(z.string().parse(body.link));
  expect(link.pathname).toBe('/invitation');
  return link.hash.slice(1);
}

/** What the foreman of the small yard does to bring people in, and what they do then. */
export function inviting({ api, database, tokens }: SmallYardApi) {
  const rest = (method: string, path: string, body?: unknown, token = tokens.foreman) =>
    api.rest(method, path, { token, ...(body === undefined ? {} : { body }) });

  const person = async (id: string, more: object = {}): Promise<string> => {
    const sent = { id, name: `${id} of the yard`, roles: ['builder'], ...more };
    expect((await rest('POST', '/yards/small/people', sent)).status).toBe(201);
    return id;
  };
  const invite = (id: string, input: object = {}): Promise<Answer> =>
    rest('POST', `/yards/small/people/${id}/invitations`, input);
  const personOf = (id: string): Promise<Answer> => rest('GET', `/yards/small/people/${id}`);

  return {
    /** As the foreman, unless with another token. */
    rest,
    /** A new person of the yard. */
    person,
    personOf,
    invite,
    /** A new person who is invited: the secret of the link. */
    invited: async (id: string, input: object = {}, more: object = {}): Promise<string> =>
      linkToken(await invite(await person(id, more), input)),
    /** `preview` or `accept`, by somebody who is not signed in. */
    open: (path: string, body: unknown): Promise<Answer> =>
      api.rest('POST', `/invitations/${path}`, { body }),
    /** Of all invitations of a person, the newest first. */
    statesOf: async (personId: string): Promise<string[]> => {
      const { body } = await rest('GET', '/yards/small/invitations?first=200');
      const { items } = invitationsSchema.parse(body);
      return items.filter((one) => one.personId === personId).map(({ state }) => state);
    },
    /** The foreman's change of a person, with the revision that it has now. */
    guarded: async (method: string, id: string, below = '', body?: unknown): Promise<Answer> => {
      const { headers } = await personOf(id);
      return api.rest(method, `/yards/small/people/${id}${below}`, {
        token: tokens.foreman,
        headers: { 'if-match': headers.get('etag') ?? '' },
        ...(body === undefined ? {} : { body }),
      });
    },
    accounts: (email: string): Promise<number> =>
      database.owner.account.count({ where: { email } }),
  };
}
