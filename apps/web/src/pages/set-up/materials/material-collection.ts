import { api, asked, ifMatch, once, type Schema } from '../../../api/client.ts';
import { lists } from '../lists/lists.ts';
import type { Collection } from '../record/collection.ts';

export type Material = Schema<'Material'>;

/** What its form holds; the numbers of its sheet are changed one by one, where they stand. */
export type MaterialValues = Pick<
  Material,
  | 'name'
  | 'classId'
  | 'resinSystem'
  | 'use'
  | 'surface'
  | 'waxed'
  | 'blushes'
  | 'belowMinimum'
  | 'dampAir'
  | 'minimumC'
  | 'maximumC'
  | 'keptIn'
  | 'keptLagHours'
  | 'isocyanate'
  | 'cautions'
>;

const blankMaterial: MaterialValues = {
  name: '',
  classId: null,
  resinSystem: 'epoxy',
  use: null,
  surface: null,
  waxed: null,
  blushes: null,
  belowMinimum: null,
  dampAir: null,
  minimumC: null,
  maximumC: null,
  keptIn: null,
  keptLagHours: 0,
  isocyanate: false,
  cautions: [],
};

const valuesOf = (material: Material): MaterialValues => ({
  name: material.name,
  classId: material.classId,
  resinSystem: material.resinSystem,
  use: material.use,
  surface: material.surface,
  waxed: material.waxed,
  blushes: material.blushes,
  belowMinimum: material.belowMinimum,
  dampAir: material.dampAir,
  minimumC: material.minimumC,
  maximumC: material.maximumC,
  keptIn: material.keptIn,
  keptLagHours: material.keptLagHours,
  isocyanate: material.isocyanate,
  cautions: material.cautions,
});

/** A line that was begun and left empty is none. */
const sent = (values: MaterialValues): MaterialValues => ({
  ...values,
  cautions: values.cautions.map((line) => line.trim()).filter((line) => line !== ''),
});

export const materialCollection: Collection<Material, MaterialValues> = {
  subject: 'material',
  list: lists.materials,
  get: (path, signal) =>
    asked(api.GET('/api/v1/yards/{yardId}/materials/{id}', { params: { path }, signal })),
  create: ({ yardId, id }, values, key) =>
    asked(
      api.POST('/api/v1/yards/{yardId}/materials', {
        params: { path: { yardId } },
        headers: once(key),
        body: { id, ...sent(values) },
      }),
    ),
  update: (path, revision, values) =>
    asked(
      api.PATCH('/api/v1/yards/{yardId}/materials/{id}', {
        params: { path, header: ifMatch(revision) },
        body: sent(values),
      }),
    ),
  remove: (path, revision) =>
    asked(
      api.DELETE('/api/v1/yards/{yardId}/materials/{id}', {
        params: { path, header: ifMatch(revision) },
      }),
    ),
  valuesOf,
  blank: () => blankMaterial,
};
