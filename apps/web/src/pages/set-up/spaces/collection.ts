import { api, asked, ifMatch, once, type Schema } from '../../../api/client.ts';
import type { Form } from '../../../form/form.ts';
import { lists } from '../lists/lists.ts';
import { type Collection, without } from '../record/collection.ts';

export type Space = Schema<'Space'>;
export type SpaceValues = Omit<Space, 'id' | 'revision'>;
export type SpaceForm = Form<SpaceValues>;

/** Stands for a space that has no id yet, where its dust is said to stay. */
export const itself = '+';

export const spaces: Collection<Space, SpaceValues> = {
  subject: 'space',
  list: lists.spaces,
  get: (path, signal) =>
    asked(api.GET('/api/v1/yards/{yardId}/spaces/{id}', { params: { path }, signal })),
  create: ({ yardId, id }, values, key) =>
    asked(
      api.POST('/api/v1/yards/{yardId}/spaces', {
        params: { path: { yardId } },
        headers: once(key),
        body: {
          id,
          ...values,
          dustReaches: values.dustReaches.map((to) => (to === itself ? id : to)),
        },
      }),
    ),
  update: (path, revision, body) =>
    asked(
      api.PATCH('/api/v1/yards/{yardId}/spaces/{id}', {
        params: { path, header: ifMatch(revision) },
        body,
      }),
    ),
  remove: (path, revision) =>
    asked(
      api.DELETE('/api/v1/yards/{yardId}/spaces/{id}', {
        params: { path, header: ifMatch(revision) },
      }),
    ),
  valuesOf: (record) => without(record, 'id', 'revision'),
  blank: () => ({
    name: '',
    // A heated room by day, which most yards have one of.
    climate: {
      kind: 'heated',
      setPoints: [{ weekdays: [1, 2, 3, 4, 5, 6, 7], from: '06:00', celsius: 18 }],
      lagHours: 0,
    },
    bandC: null,
    humidity: null,
    skin: null,
    changes: [],
    enclosed: false,
    room: 2,
    workPercent: 100,
    taken: [],
    hours: null,
    dustReaches: [itself],
    settlingMinutes: 30,
  }),
};
