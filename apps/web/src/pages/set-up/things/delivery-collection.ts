import { api, asked, ifMatch, once, type Schema } from '../../../api/client.ts';
import { lists } from '../lists/lists.ts';
import { type Collection, without } from '../record/collection.ts';
import { tomorrow } from '../rows/tomorrow.ts';

export type Delivery = Schema<'Delivery'>;
export type DeliveryValues = Omit<Delivery, 'id' | 'revision'>;

export const deliveries: Collection<Delivery, DeliveryValues> = {
  subject: 'delivery',
  list: lists.deliveries,
  get: (path, signal) =>
    asked(api.GET('/api/v1/yards/{yardId}/deliveries/{id}', { params: { path }, signal })),
  create: ({ yardId, id }, values, key) =>
    asked(
      api.POST('/api/v1/yards/{yardId}/deliveries', {
        params: { path: { yardId } },
        headers: once(key),
        body: { id, ...values },
      }),
    ),
  update: (path, revision, body) =>
    asked(
      api.PATCH('/api/v1/yards/{yardId}/deliveries/{id}', {
        params: { path, header: ifMatch(revision) },
        body,
      }),
    ),
  remove: (path, revision) =>
    asked(
      api.DELETE('/api/v1/yards/{yardId}/deliveries/{id}', {
        params: { path, header: ifMatch(revision) },
      }),
    ),
  valuesOf: (record) => without(record, 'id', 'revision'),
  blank: ({ timeZone }) => ({ name: '', expected: tomorrow(timeZone, '09:00', 7) }),
};
