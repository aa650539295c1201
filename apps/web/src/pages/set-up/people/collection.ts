import { api, asked, ifMatch, once, type Schema } from '../../../api/client.ts';
import { lists } from '../lists/lists.ts';
import { type Collection, without } from '../record/collection.ts';

export type Person = Schema<'Person'>;
export type PersonValues = Omit<Person, 'id' | 'revision' | 'hasAccount'>;

/** Null is what others earn, and nobody but the foreman comes here. */
const sent = (values: PersonValues) => ({
  ...values,
  email: values.email === '' ? null : values.email,
  hourlyCost: values.hourlyCost ?? 0,
  overtimeHourlyExtra: values.overtimeHourlyExtra ?? 0,
});

export const people: Collection<Person, PersonValues> = {
  subject: 'person',
  list: lists.people,
  get: (path, signal) =>
    asked(api.GET('/api/v1/yards/{yardId}/people/{id}', { params: { path }, signal })),
  create: ({ yardId, id }, values, key) =>
    asked(
      api.POST('/api/v1/yards/{yardId}/people', {
        params: { path: { yardId } },
        headers: once(key),
        body: { id, ...sent(values) },
      }),
    ),
  update: (path, revision, values) =>
    asked(
      api.PATCH('/api/v1/yards/{yardId}/people/{id}', {
        params: { path, header: ifMatch(revision) },
        body: sent(values),
      }),
    ),
  remove: (path, revision) =>
    asked(
      api.DELETE('/api/v1/yards/{yardId}/people/{id}', {
        params: { path, header: ifMatch(revision) },
      }),
    ),
  valuesOf: (person) => without(person, 'id', 'revision', 'hasAccount'),
  blank: () => ({
    name: '',
    email: null,
    roles: ['builder'],
    abilities: [],
    shifts: [],
    exceptions: [],
    hourlyCost: 0,
    overtime: [],
    overtimeHourlyExtra: 0,
  }),
};
