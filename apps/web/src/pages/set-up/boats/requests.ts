import { api, asked, ifMatch, once, type Schema } from '../../../api/client.ts';
import type { Sent } from '../../../form/sending.ts';
import { lists } from '../lists/lists.ts';
import type { At, Collection } from '../record/collection.ts';

export type Boat = Schema<'Boat'>;
export type Refit = Schema<'Refit'>;
export type Part = Schema<'Part'>;
export type Job = Schema<'Job'>;

export type BoatValues = Pick<Boat, 'name' | 'owner'>;
export type RefitValues = Pick<Refit, 'name' | 'release' | 'promised' | 'handovers' | 'weight'>;
export type PartValues = Pick<Part, 'name' | 'space' | 'areaM2' | 'edgeM' | 'jointM' | 'layers'>;
export type JobValues = Pick<
  Job,
  'procedure' | 'after' | 'destination' | 'joins' | 'waitsFor' | 'words'
>;

export const boatCollection: Collection<Boat, BoatValues> = {
  subject: 'boat',
  list: lists.boats,
  get: (path, signal) =>
    asked(api.GET('/api/v1/yards/{yardId}/boats/{id}', { params: { path }, signal })),
  create: ({ yardId, id }, values, key) =>
    asked(
      api.POST('/api/v1/yards/{yardId}/boats', {
        params: { path: { yardId } },
        headers: once(key),
        body: { id, ...values },
      }),
    ),
  update: (path, revision, values) =>
    asked(
      api.PATCH('/api/v1/yards/{yardId}/boats/{id}', {
        params: { path, header: ifMatch(revision) },
        body: values,
      }),
    ),
  remove: (path, revision) =>
    asked(
      api.DELETE('/api/v1/yards/{yardId}/boats/{id}', {
        params: { path, header: ifMatch(revision) },
      }),
    ),
  valuesOf: ({ name, owner }) => ({ name, owner }),
  blank: () => ({ name: '', owner: null }),
};

/** What stands inside something else: its parent has the address that one is added at. */
interface Inside<R, V> {
  readonly get: (at: At) => Promise<R>;
  readonly create: (parent: At, sent: Sent<V>) => Promise<R>;
  readonly update: (at: At, revision: number, values: V) => Promise<R>;
}

export const refits: Inside<Refit, RefitValues> = {
  get: (path) => asked(api.GET('/api/v1/yards/{yardId}/refits/{id}', { params: { path } })),
  create: (path, { id, values, key }) =>
    asked(
      api.POST('/api/v1/yards/{yardId}/boats/{id}/refits', {
        params: { path },
        headers: once(key),
        body: { id, ...values },
      }),
    ),
  update: (path, revision, body) =>
    asked(
      api.PATCH('/api/v1/yards/{yardId}/refits/{id}', {
        params: { path, header: ifMatch(revision) },
        body,
      }),
    ),
};

export const parts: Inside<Part, PartValues> = {
  get: (path) => asked(api.GET('/api/v1/yards/{yardId}/parts/{id}', { params: { path } })),
  create: (path, { id, values, key }) =>
    asked(
      api.POST('/api/v1/yards/{yardId}/refits/{id}/parts', {
        params: { path },
        headers: once(key),
        body: { id, ...values },
      }),
    ),
  update: (path, revision, body) =>
    asked(
      api.PATCH('/api/v1/yards/{yardId}/parts/{id}', {
        params: { path, header: ifMatch(revision) },
        body,
      }),
    ),
};

export const jobs: Inside<Job, JobValues> = {
  get: (path) => asked(api.GET('/api/v1/yards/{yardId}/jobs/{id}', { params: { path } })),
  create: (path, { id, values, key }) =>
    asked(
      api.POST('/api/v1/yards/{yardId}/parts/{id}/jobs', {
        params: { path },
        headers: once(key),
        body: { id, ...values },
      }),
    ),
  // What it is made of has made its tasks, and stays.
  update: (path, revision, { waitsFor, words }) =>
    asked(
      api.PATCH('/api/v1/yards/{yardId}/jobs/{id}', {
        params: { path, header: ifMatch(revision) },
        body: { waitsFor, words },
      }),
    ),
};

export const removeRefit = (path: At, revision: number): Promise<unknown> =>
  asked(
    api.DELETE('/api/v1/yards/{yardId}/refits/{id}', {
      params: { path, header: ifMatch(revision) },
    }),
  );

export const removePart = (path: At, revision: number): Promise<unknown> =>
  asked(
    api.DELETE('/api/v1/yards/{yardId}/parts/{id}', {
      params: { path, header: ifMatch(revision) },
    }),
  );

export const removeJob = (path: At): Promise<unknown> =>
  asked(api.DELETE('/api/v1/yards/{yardId}/jobs/{id}', { params: { path } }));
