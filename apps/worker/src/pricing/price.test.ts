import { describe, expect, it } from 'vitest';
import { smallYard } from '#planning/testing/small-yard.ts';
import { applyEdits, type Edited } from '#live/edits/apply.ts';
import { noEdits } from '#live/edits/edits.ts';
import { priceOf, type Planned } from '#live/price/price-of.ts';
import { compile } from '#planning/compile/compile.ts';
import { makeSheet } from '#planning/decode/make-sheet.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Task, Workload } from '#planning/workload/workload.ts';
import { solve } from '#scheduling/solve.ts';

/** Two boats of one builder, with one way to do each lid; sanding takes half a sheet of plywood by the square metre. */
const yard = smallYard((draft) => {
  const [procedure] = draft.procedures;
  procedure.choices = [];
  procedure.steps = procedure.steps.filter(({ id }) => id !== 'key');
  procedure.links = procedure.links
    .filter(({ id }) => id === 'sand-one' || id === 'bond')
    .map((link) => ({ ...link, closes: null }));
  draft.stocks.push({ id: 'ply', name: 'Plywood', unit: 'sheets', total: 9 });
  procedure.steps[0].consumes.push({
    stock: 'ply',
    fixed: 0,
    perM2: 0.5,
    perEdgeM: 0,
    perJointM: 0,
  });
  const gull = draft.boats[0];
  draft.boats.push({
    ...structuredClone(gull),
    id: 'tern',
    name: 'Tern',
    refits: structuredClone(gull.refits).map((refit) => ({
      ...refit,
      id: 'tern-refit',
      parts: refit.parts.map((part) => ({
        ...part,
        id: 'door',
        name: 'Door',
        jobs: part.jobs.map((job) => ({ ...job, id: 'door' })),
      })),
    })),
  });
});

function planned({ yard: of, workload }: Edited): Planned {
  const compiled = compile({ yard: of, workload });
  const result = solve(compiled.problem, { seed: 1, iterations: 64 });
  return { workload, sheet: makeSheet({ compiled, result, yard: of, workload }) };
}

const without = { yard, workload: makeWorkload(yard) };

describe('a price', () => {
  const wider = applyEdits(yard, without.workload, {
    ...noEdits,
    resize: [{ partId: 'door', areaM2: 6 }],
  });
  const price = priceOf(wider.yard, planned(without), planned(wider));

  it('is hours by skill, materials and each boat’s days, of one plan less the other', () => {
    // 20 min/m² of sanding, 15 of each coat (the procedure `two-coats`), on 4 m² more.
    expect(price.work).toEqual([
      { skill: 'sanding', name: 'Sanding', minutes: 80 },
      { skill: 'coating', name: 'Coating', minutes: 120 },
    ]);
    expect(price.materials).toEqual([{ id: 'ply', name: 'Plywood', unit: 'sheets', amount: 2 }]);
    expect(price.boats.map(({ boatId }) => boatId)).toEqual(['gull', 'tern']);
    for (const { without: from, with: to, minutes } of price.boats)
      expect(minutes).toBe((Date.parse(to) - Date.parse(from)) / 60_000);
    expect(price.boats.some(({ minutes }) => minutes > 0)).toBe(true);
  });

  it('is nothing where nothing is changed', () => {
    const same = priceOf(yard, planned(without), planned(without));
    expect(same).toMatchObject({ work: [], materials: [], cents: 0 });
    expect(same.boats.map(({ minutes }) => minutes)).toEqual([0, 0]);
  });

  it('counts of paused work what is left of it', () => {
    const begin = (workload: Workload): Workload => ({
      ...workload,
      tasks: workload.tasks.map((task): Task =>
        task.id === 'door.sand'
          ? { ...task, state: 'paused', startedAt: yard.planFrom, leftMinutes: 20, crew: ['ada'] }
          : task,
      ),
    });
    const before = { yard, workload: begin(without.workload) };
    const after = applyEdits(yard, before.workload, { ...noEdits, dropParts: ['door'] });
    const { work } = priceOf(after.yard, planned(before), planned(after));
    // What was begun is finished either way.
    expect(work.map(({ skill, minutes }) => [skill, minutes])).toEqual([['coating', -120]]);
  });
});
