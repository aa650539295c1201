import { describe, expect, it } from 'vitest';
import { DomainError } from '#kernel/error.ts';
import { changeInputSchema } from '#live/change/change-input.ts';
import type { Edited } from '#live/edits/apply.ts';
import { smallYard } from '#planning/testing/small-yard.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { workOfChange } from './work-of-change.ts';

/** Gull is the owner's; Heron, its delivery, the rigging loft and the secret recipe are not. */
const yard = smallYard((draft) => {
  const [gull] = draft.boats;
  const heron = structuredClone(gull);
  Object.assign(heron, { id: 'heron', name: 'Heron' });
  for (const refit of heron.refits) {
    Object.assign(refit, { id: 'heron-refit', name: 'Heron refit' });
    for (const part of refit.parts) {
      Object.assign(part, { id: 'heron-keel', name: 'Keel of Heron' });
      for (const job of part.jobs) job.id = 'heron-job';
    }
  }
  draft.boats.push(heron);
  draft.deliveries.push({
    id: 'heron-mast',
    name: 'Mast of Heron',
    expected: '2026-11-04T08:00:00Z',
  });
  const [shop] = draft.spaces;
  draft.spaces.push({ ...shop, id: 'loft-of-heron', name: 'Loft' });
  draft.procedures.push({ ...draft.procedures[0], id: 'secret-recipe', name: 'Secret' });
});
const before: Edited = { yard, workload: makeWorkload(yard) };

function refused(sees: 'own' | 'all', part: object): DomainError {
  const change = changeInputSchema.parse({
    kind: 'add-part',
    refitId: 'gull-refit',
    part: { id: 'door', name: 'Door', space: 'shop', areaM2: 1, ...part },
  });
  try {
    workOfChange(before, change, sees);
  } catch (error) {
    if (error instanceof DomainError) return error;
    throw error;
  }
  throw new Error('it was not refused');
}

const job = (more: object): object => ({
  jobs: [{ id: 'door-job', procedure: 'two-coats', ...more }],
});
const jobs = 'change.part.jobs[0]';
const wrong: [string, object, string, unknown][] = [
  ['delivery', job({ waitsFor: [{ delivery: 'no' }] }), `${jobs}.waitsFor[0].delivery`, 'no'],
  ['space', { space: 'attic' }, 'change.part.space', 'attic'],
  ['procedure', job({ procedure: 'magic' }), `${jobs}.procedure`, 'magic'],
  ['destination', job({ destination: 'sea' }), `${jobs}.destination`, 'sea'],
  ['job', job({ after: ['nothing'] }), `${jobs}.after[0]`, 'nothing'],
  ['joined part', job({ joins: ['nothing'] }), `${jobs}.joins[0]`, 'nothing'],
  ['job id', job({ id: 'heron-job' }), `${jobs}.id`, 'heron-job'],
  ['part id', { id: 'heron-keel' }, 'change.part.id', 'heron-keel'],
];

describe('what an owner hears of a change that makes no sense', () => {
  it.each(wrong)(
    'names the %s that was sent, and nothing else of the yard',
    (_, part, path, value) => {
      const { message, faults } = refused('own', part);
      expect(faults.map((one) => [one.path, one.value])).toEqual([[path, value]]);
      expect(faults[0].cure).toMatch(/ask the yard/i);
      expect(message).toContain(String(value));
      const said = `${message} ${JSON.stringify(faults)}`.replaceAll(String(value), '');
      expect(said).not.toMatch(/heron|mast|loft|secret|recipe|lid|boats\[|there are/i);
    },
  );

  it('is the same of a job of another boat and of none', () => {
    const words = (after: string): string =>
      JSON.stringify(refused('own', job({ after: [after] })).faults).replaceAll(after, '*');
    expect(words('heron-job')).toBe(words('nothing'));
  });

  it('is more for who sees the whole yard, by the field as well', () => {
    expect(refused('all', { space: 'attic' }).message).toContain('there are: shop, loft-of-heron');
    for (const [, part, path, value] of wrong)
      expect(refused('all', part).faults).toMatchObject([{ path, value }]);
  });
});
