import { api, asked, type Schema } from '../../../api/client.ts';
import { everyPage } from '../../../api/resource.ts';
import { type KeptResource, useKeptResource } from '../../../offline/kept-resource.ts';

export type SnagKind = Schema<'SnagKinds'>['items'][number];

interface Named {
  readonly id: string;
  readonly name: string;
}

export interface Worker extends Named {
  readonly abilities: Schema<'Person'>['abilities'];
}

/** A part that a snag can be on. */
export interface SnagPart {
  readonly id: string;
  readonly name: string;
  /** With the boat that it belongs to. */
  readonly label: string;
  readonly jobIds: readonly string[];
}

/** What a snag, a reading or a claim can be about; read ahead, for when the yard is out of reach. */
export interface Around {
  readonly parts: readonly SnagPart[];
  readonly kinds: readonly SnagKind[];
  readonly spaces: readonly Named[];
  /** Who works, and what they can. */
  readonly people: readonly Worker[];
}

export const useAround = (yardId: string, isWanted: boolean): KeptResource<Around> =>
  useKeptResource<Around>(
    isWanted ? `around ${yardId}` : null,
    async (signal) => {
      const path = { yardId };
      const [boats, kinds, spaces, people] = await Promise.all([
        everyPage((after) =>
          asked(
            api.GET('/api/v1/yards/{yardId}/boats', {
              params: { path, query: { first: 50, ...(after === undefined ? {} : { after }) } },
              signal,
            }),
          ),
        ),
        asked(api.GET('/api/v1/yards/{yardId}/snag-kinds', { params: { path }, signal })),
        everyPage((after) =>
          asked(
            api.GET('/api/v1/yards/{yardId}/spaces', {
              params: { path, query: { first: 50, ...(after === undefined ? {} : { after }) } },
              signal,
            }),
          ),
        ),
        everyPage((after) =>
          asked(
            api.GET('/api/v1/yards/{yardId}/people', {
              params: { path, query: { first: 50, ...(after === undefined ? {} : { after }) } },
              signal,
            }),
          ),
        ),
      ]);
      return {
        parts: boats.flatMap(partsOf),
        kinds: kinds.items,
        spaces: spaces.map(({ id, name }) => ({ id, name })),
        people: people.map(({ id, name, abilities }) => ({ id, name, abilities })),
      };
    },
    { yardId, on: ({ subject }) => about.has(subject) },
  );

const about: ReadonlySet<string> = new Set(['boat', 'refit', 'part', 'job', 'space', 'person']);

const partsOf = (boat: Schema<'Boat'>): SnagPart[] =>
  boat.refits.flatMap(({ parts }) =>
    parts.map(({ id, name, jobs }) => ({
      id,
      name,
      label: `${name} · ${boat.name}`,
      jobIds: jobs.map((job) => job.id),
    })),
  );

/** The part that a task is work on: a task's id begins with its job's. */
export const partOfTask = (parts: readonly SnagPart[], taskId: string): SnagPart | undefined =>
  parts.find(({ jobIds }) => jobIds.some((job) => taskId.startsWith(`${job}.`)));
