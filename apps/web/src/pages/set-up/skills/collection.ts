import { api, asked, ifMatch, once, type Schema } from '../../../api/client.ts';
import { lists } from '../lists/lists.ts';
import { type Collection, without } from '../record/collection.ts';

export type Skill = Schema<'Skill'>;
export type SkillValues = Omit<Skill, 'id' | 'revision'>;

export const skills: Collection<Skill, SkillValues> = {
  subject: 'skill',
  list: lists.skills,
  get: (path, signal) =>
    asked(api.GET('/api/v1/yards/{yardId}/skills/{id}', { params: { path }, signal })),
  create: ({ yardId, id }, values, key) =>
    asked(
      api.POST('/api/v1/yards/{yardId}/skills', {
        params: { path: { yardId } },
        headers: once(key),
        body: { id, ...values },
      }),
    ),
  update: (path, revision, body) =>
    asked(
      api.PATCH('/api/v1/yards/{yardId}/skills/{id}', {
        params: { path, header: ifMatch(revision) },
        body,
      }),
    ),
  remove: (path, revision) =>
    asked(
      api.DELETE('/api/v1/yards/{yardId}/skills/{id}', {
        params: { path, header: ifMatch(revision) },
      }),
    ),
  valuesOf: (skill) => without(skill, 'id', 'revision'),
  blank: () => ({ name: '' }),
};
