import { z } from 'zod';
import type { YardInput } from '#planning/yard/yard.ts';
import type { Answer, TestApi } from './api.ts';
import { allServerSent, type ServerSent } from './streams.ts';

const runSchema = z.looseObject({
  id: z.string(),
  status: z.string(),
  attempts: z.int(),
  planId: z.string().nullable(),
  error: z.string().nullable(),
  why: z.array(z.string()),
  faults: z.array(z.object({ code: z.string(), path: z.string(), message: z.string() }).loose()),
});
export type Run = z.output<typeof runSchema>;

export const runOf = ({ body }: Pick<Answer, 'body'>): Run => runSchema.parse(body);

/** Whatever the day on which the test runs: the invented yards live in this week. */
const notBefore = '2026-11-30T07:00:00Z';

/** What a foreman does with plan runs, over HTTP. */
export function runsOf(api: TestApi, yardId: string, token: () => string) {
  const path = `/yards/${yardId}/plan-runs`;
  const events = (id: string): string => `${api.url}/api/v1${path}/${id}/events`;
  return {
    events,
    start: async (input: object): Promise<Run> =>
      runOf(await api.rest('POST', path, { token: token(), body: { notBefore, ...input } })),
    get: async (id: string): Promise<Run> =>
      runOf(await api.rest('GET', `${path}/${id}`, { token: token() })),
    stop: (id: string): Promise<Answer> =>
      api.rest('POST', `${path}/${id}/stop`, { token: token() }),
    /** Everything that its followers are told, up to its end. */
    follow: (id: string, lastEventId?: string): Promise<ServerSent[]> =>
      allServerSent(events(id), {
        token: token(),
        ...(lastEventId === undefined ? {} : { lastEventId }),
      }),
  };
}

/** Stores the yard, whose foreman signs in with `token`; the others who have accounts are joined. */
export async function makeYard(api: TestApi, yard: YardInput, token: string): Promise<void> {
  const made = await api.rest('POST', '/yards', { token, body: yard });
  if (made.status !== 201) throw new Error(JSON.stringify(made.body));
  await api.join(z.string().parse(made.body.id));
}
