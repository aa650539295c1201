import { api, asked, type Schema } from '../../../api/client.ts';
import { everyPage, pageAfter, type Resource, useResource } from '../../../api/resource.ts';
import type { Option } from '../../../form/fields.tsx';
import { useYard } from '../../../frame/yard.tsx';

/** Everything of a kind that a yard has. */
type Read<T> = (yardId: string, signal: AbortSignal) => Promise<readonly T[]>;

const of = (yardId: string, after: string | undefined, signal: AbortSignal) => ({
  params: { path: { yardId }, query: pageAfter(after) },
  signal,
});

const spaces: Read<Schema<'Space'>> = (yardId, signal) =>
  everyPage((after) => asked(api.GET('/api/v1/yards/{yardId}/spaces', of(yardId, after, signal))));
const skills: Read<Schema<'Skill'>> = (yardId, signal) =>
  everyPage((after) => asked(api.GET('/api/v1/yards/{yardId}/skills', of(yardId, after, signal))));
const people: Read<Schema<'Person'>> = (yardId, signal) =>
  everyPage((after) => asked(api.GET('/api/v1/yards/{yardId}/people', of(yardId, after, signal))));
const tools: Read<Schema<'Tool'>> = (yardId, signal) =>
  everyPage((after) => asked(api.GET('/api/v1/yards/{yardId}/tools', of(yardId, after, signal))));
const stocks: Read<Schema<'Stock'>> = (yardId, signal) =>
  everyPage((after) => asked(api.GET('/api/v1/yards/{yardId}/stocks', of(yardId, after, signal))));
const barriers: Read<Schema<'Barrier'>> = (yardId, signal) =>
  everyPage((after) =>
    asked(api.GET('/api/v1/yards/{yardId}/barriers', of(yardId, after, signal))),
  );
const slotLists: Read<Schema<'SlotList'>> = (yardId, signal) =>
  everyPage((after) =>
    asked(api.GET('/api/v1/yards/{yardId}/slot-lists', of(yardId, after, signal))),
  );
const deliveries: Read<Schema<'Delivery'>> = (yardId, signal) =>
  everyPage((after) =>
    asked(api.GET('/api/v1/yards/{yardId}/deliveries', of(yardId, after, signal))),
  );
const materials: Read<Schema<'Material'>> = (yardId, signal) =>
  everyPage((after) =>
    asked(api.GET('/api/v1/yards/{yardId}/materials', of(yardId, after, signal))),
  );
const fabrics: Read<Schema<'Fabric'>> = (yardId, signal) =>
  everyPage((after) => asked(api.GET('/api/v1/yards/{yardId}/fabrics', of(yardId, after, signal))));
const procedures: Read<Schema<'Procedure'>> = (yardId, signal) =>
  everyPage((after) =>
    asked(api.GET('/api/v1/yards/{yardId}/procedures', of(yardId, after, signal))),
  );
const boats: Read<Schema<'Boat'>> = (yardId, signal) =>
  everyPage((after) => asked(api.GET('/api/v1/yards/{yardId}/boats', of(yardId, after, signal))));

export const lists = {
  spaces,
  skills,
  people,
  tools,
  stocks,
  barriers,
  slotLists,
  deliveries,
  materials,
  fabrics,
  procedures,
  boats,
};

type Item<K extends keyof typeof lists> = Awaited<ReturnType<(typeof lists)[K]>>[number];

/** All of a kind; read anew when the yard's log says that one changed. */
export function useList<K extends keyof typeof lists>(kind: K): Resource<readonly Item<K>[]> {
  const { id } = useYard();
  const read = lists[kind] as Read<Item<K>>;
  return useResource(`${id} ${kind}`, (signal) => read(id, signal), {
    yardId: id,
    on: ({ subject }) => subjects[kind].includes(subject),
  });
}

/** As the log calls them. */
const subjects: Readonly<Record<keyof typeof lists, readonly string[]>> = {
  spaces: ['space'],
  skills: ['skill'],
  people: ['person'],
  tools: ['tool'],
  stocks: ['stock'],
  barriers: ['barrier'],
  slotLists: ['slot-list'],
  deliveries: ['delivery'],
  materials: ['material'],
  fabrics: ['fabric'],
  procedures: ['procedure'],
  boats: ['boat', 'refit', 'part', 'job'],
};

type Named = { readonly id: string; readonly name: string };

/** As choices of a field. */
export const optionsOf = (records: readonly Named[] | undefined): Option[] =>
  (records ?? []).map(({ id, name }) => ({ value: id, label: name }));

export const nameIn = (records: readonly Named[] | undefined, id: string): string =>
  records?.find((record) => record.id === id)?.name ?? id;
