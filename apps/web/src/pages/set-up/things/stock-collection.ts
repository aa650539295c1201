import { api, asked, ifMatch, once, type Schema } from '../../../api/client.ts';
import { lists } from '../lists/lists.ts';
import { type Collection, without } from '../record/collection.ts';

export type Stock = Schema<'Stock'>;
export type StockValues = Omit<Stock, 'id' | 'revision'>;

export const stocks: Collection<Stock, StockValues> = {
  subject: 'stock',
  list: lists.stocks,
  get: (path, signal) =>
    asked(api.GET('/api/v1/yards/{yardId}/stocks/{id}', { params: { path }, signal })),
  create: ({ yardId, id }, values, key) =>
    asked(
      api.POST('/api/v1/yards/{yardId}/stocks', {
        params: { path: { yardId } },
        headers: once(key),
        body: { id, ...values },
      }),
    ),
  update: (path, revision, body) =>
    asked(
      api.PATCH('/api/v1/yards/{yardId}/stocks/{id}', {
        params: { path, header: ifMatch(revision) },
        body,
      }),
    ),
  remove: (path, revision) =>
    asked(
      api.DELETE('/api/v1/yards/{yardId}/stocks/{id}', {
        params: { path, header: ifMatch(revision) },
      }),
    ),
  valuesOf: (record) => without(record, 'id', 'revision'),
  blank: () => ({ name: '', unit: 'kg', total: 0 }),
};
