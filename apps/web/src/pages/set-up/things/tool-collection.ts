import { api, asked, ifMatch, once, type Schema } from '../../../api/client.ts';
import { lists } from '../lists/lists.ts';
import { type Collection, without } from '../record/collection.ts';

export type Tool = Schema<'Tool'>;
export type ToolValues = Omit<Tool, 'id' | 'revision'>;

export const tools: Collection<Tool, ToolValues> = {
  subject: 'tool',
  list: lists.tools,
  get: (path, signal) =>
    asked(api.GET('/api/v1/yards/{yardId}/tools/{id}', { params: { path }, signal })),
  create: ({ yardId, id }, values, key) =>
    asked(
      api.POST('/api/v1/yards/{yardId}/tools', {
        params: { path: { yardId } },
        headers: once(key),
        body: { id, ...values },
      }),
    ),
  update: (path, revision, body) =>
    asked(
      api.PATCH('/api/v1/yards/{yardId}/tools/{id}', {
        params: { path, header: ifMatch(revision) },
        body,
      }),
    ),
  remove: (path, revision) =>
    asked(
      api.DELETE('/api/v1/yards/{yardId}/tools/{id}', {
        params: { path, header: ifMatch(revision) },
      }),
    ),
  valuesOf: (record) => without(record, 'id', 'revision'),
  blank: () => ({ name: '', count: 1, away: [], hours: null }),
};
