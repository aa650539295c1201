import { api, asked, ifMatch, type Schema } from '../../../api/client.ts';
import { everyPage } from '../../../api/resource.ts';

export type Snag = Schema<'Snag'>;
export type Note = 'dismiss' | 'settle' | 'reopen';

const params = (yardId: string, id: string) => ({ path: { yardId, id } });

export const propose = (yardId: string, id: string): Promise<Snag> =>
  asked(api.POST('/api/v1/yards/{yardId}/snags/{id}/propose', { params: params(yardId, id) }));

/** `reason`: why without a price. */
export const accept = (
  yardId: string,
  id: string,
  proposalId: string,
  reason?: string,
): Promise<Snag> =>
  asked(
    api.POST('/api/v1/yards/{yardId}/snags/{id}/accept', {
      params: params(yardId, id),
      body: { proposalId, ...(reason === undefined ? {} : { override: { reason } }) },
    }),
  );

const deeds = {
  dismiss: (yardId: string, id: string, note: string) =>
    api.POST('/api/v1/yards/{yardId}/snags/{id}/dismiss', {
      params: params(yardId, id),
      body: { note },
    }),
  settle: (yardId: string, id: string, note: string) =>
    api.POST('/api/v1/yards/{yardId}/snags/{id}/settle', {
      params: params(yardId, id),
      body: { note },
    }),
  reopen: (yardId: string, id: string, note: string) =>
    api.POST('/api/v1/yards/{yardId}/snags/{id}/reopen', {
      params: params(yardId, id),
      body: { note },
    }),
} as const;

export const decide = (yardId: string, id: string, how: Note, note: string): Promise<Snag> =>
  asked(deeds[how](yardId, id, note));

export const change = (
  yardId: string,
  { id, revision }: Snag,
  body: Schema<'SnagPatch'>,
): Promise<Snag> =>
  asked(
    api.PATCH('/api/v1/yards/{yardId}/snags/{id}', {
      params: { ...params(yardId, id), header: ifMatch(revision) },
      body,
    }),
  );

/** What can be chosen where a snag is corrected. */
export interface Choices {
  readonly kinds: Schema<'SnagKinds'>['items'];
  /** Done work of the part. */
  readonly tasks: readonly Schema<'Task'>[];
}

const most = 100;

export async function choicesFor(
  yardId: string,
  { partId }: Snag,
  signal: AbortSignal,
): Promise<Choices> {
  const path = { yardId };
  const [{ items: kinds }, part, tasks] = await Promise.all([
    asked(api.GET('/api/v1/yards/{yardId}/snag-kinds', { params: { path }, signal })),
    asked(
      api.GET('/api/v1/yards/{yardId}/parts/{id}', {
        params: { path: { yardId, id: partId } },
        signal,
      }),
    ),
    everyPage((after) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/tasks', {
          params: { path, query: { first: most, ...(after === undefined ? {} : { after }) } },
          signal,
        }),
      ),
    ),
  ]);
  const jobs = new Set(part.jobs.map(({ id }) => id));
  return {
    kinds,
    tasks: tasks.filter(
      ({ jobId, state, skill }) => jobs.has(jobId) && state === 'done' && skill !== null,
    ),
  };
}

/** What people of the yard are called, by id. */
export async function namesOf(
  yardId: string,
  signal: AbortSignal,
): Promise<Readonly<Record<string, string>>> {
  const people = await everyPage((after) =>
    asked(
      api.GET('/api/v1/yards/{yardId}/people', {
        params: {
          path: { yardId },
          query: { first: most, ...(after === undefined ? {} : { after }) },
        },
        signal,
      }),
    ),
  );
  return Object.fromEntries(people.map(({ id, name }) => [id, name]));
}
