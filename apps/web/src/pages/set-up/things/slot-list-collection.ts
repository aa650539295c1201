import { api, asked, ifMatch, once, type Schema } from '../../../api/client.ts';
import { lists } from '../lists/lists.ts';
import { type Collection, without } from '../record/collection.ts';

export type SlotList = Schema<'SlotList'>;
export type SlotListValues = Omit<SlotList, 'id' | 'revision'>;

export const slotLists: Collection<SlotList, SlotListValues> = {
  subject: 'slot-list',
  list: lists.slotLists,
  get: (path, signal) =>
    asked(api.GET('/api/v1/yards/{yardId}/slot-lists/{id}', { params: { path }, signal })),
  create: ({ yardId, id }, values, key) =>
    asked(
      api.POST('/api/v1/yards/{yardId}/slot-lists', {
        params: { path: { yardId } },
        headers: once(key),
        body: { id, ...values },
      }),
    ),
  update: (path, revision, body) =>
    asked(
      api.PATCH('/api/v1/yards/{yardId}/slot-lists/{id}', {
        params: { path, header: ifMatch(revision) },
        body,
      }),
    ),
  remove: (path, revision) =>
    asked(
      api.DELETE('/api/v1/yards/{yardId}/slot-lists/{id}', {
        params: { path, header: ifMatch(revision) },
      }),
    ),
  valuesOf: (record) => without(record, 'id', 'revision'),
  blank: () => ({ name: '', kind: 'crane', slots: [] }),
};
