import { describe, expect, it } from 'vitest';
import type { Schema } from '../../api/client.ts';
import { changeOf, partsOf, type Wanted } from './wanted.ts';

const job = (id: string, after: string[] = []): Schema<'Job'> => ({
  id,
  procedure: `${id}-procedure`,
  after,
  destination: null,
  joins: ['another-part'],
  waitsFor: [],
  words: [],
  procedureVersion: 1,
  revision: 1,
});
const part: Schema<'Part'> = {
  id: 'hatch',
  name: 'Hatch',
  space: 'bay',
  areaM2: 2,
  edgeM: 6,
  jointM: 0,
  layers: [],
  jobs: [job('panel'), job('paint', ['panel', 'of-the-hull'])],
  revision: 3,
};
const refit = (id: string, parts: Schema<'Part'>[]): Schema<'Refit'> => ({
  id,
  name: `${id} refit`,
  release: '2026-11-02T07:00:00Z',
  promised: null,
  weight: 1,
  handovers: [],
  parts,
  revision: 1,
});
const wanted: Wanted = {
  kind: 'size',
  partId: 'hatch',
  name: '',
  areaM2: null,
  edgeM: null,
  jointM: null,
  words: '',
};
const placed = { part, refitId: 'winter' };

describe('what is sent of a change that is wanted', () => {
  it('has of measures those that are to be others', () => {
    expect(changeOf({ ...wanted, areaM2: 3 }, placed)).toEqual({
      kind: 'size',
      partId: 'hatch',
      areaM2: 3,
    });
    expect(changeOf({ ...wanted, kind: 'drop-part', areaM2: 3 }, placed)).toEqual({
      kind: 'drop-part',
      partId: 'hatch',
    });
  });

  it('gives a further part the work of the one that it is like, by ids of its own', () => {
    const more: Wanted = { ...wanted, kind: 'add-part', name: 'Aft hatch', edgeM: 7 };
    expect(changeOf(more, placed, 'x1')).toMatchObject({
      kind: 'add-part',
      refitId: 'winter',
      part: {
        id: 'aft-hatch-x1',
        name: 'Aft hatch',
        space: 'bay',
        areaM2: 2,
        edgeM: 7,
        jobs: [
          { id: 'aft-hatch-x1-1', procedure: 'panel-procedure', after: [] },
          { id: 'aft-hatch-x1-2', procedure: 'paint-procedure', after: ['aft-hatch-x1-1'] },
        ],
      },
    });
  });
});

describe('parts to choose from', () => {
  const labels = (boats: Parameters<typeof partsOf>[0]): string[] =>
    partsOf(boats).map(({ label }) => label);

  it('say of which refit or boat they are where there are several', () => {
    const one = { name: 'Petrel', refits: [refit('winter', [part])] };
    expect(labels([one])).toEqual(['Hatch']);
    const two = { name: 'Petrel', refits: [refit('winter', [part]), refit('spring', [part])] };
    expect(labels([two])).toEqual(['Hatch (winter refit)', 'Hatch (spring refit)']);
    expect(labels([one, { ...one, name: 'Heron' }])).toEqual(['Hatch (Petrel)', 'Hatch (Heron)']);
  });
});
