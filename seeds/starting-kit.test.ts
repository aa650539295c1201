import { describe, expect, it, vi } from 'vitest';
import { classOf } from '#cure/catalogue/classes.ts';
import { compile } from '#planning/compile/compile.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { yardWarnings } from '#planning/yard/check/warnings.ts';
import { readYard } from '#planning/yard/read.ts';
import type { Yard, YardInput } from '#planning/yard/yard.ts';
import { check } from '#scheduling/checker/check.ts';
import { validate } from '#scheduling/model/validate.ts';
import { solve } from '#scheduling/solve.ts';
import { startingKit } from './starting-kit.ts';

vi.setConfig({ testTimeout: 60_000 }); // searches, on a machine that may be busy

/** The kit in a shed at 20 degrees with two able pairs of hands, and one part for each procedure named. */
function yardWith(procedures: readonly string[], celsius = 20): Yard {
  const shifts = [1, 2, 3, 4, 5].map((weekday) => ({
    weekday,
    from: '08:00',
    to: '17:00',
    breaks: [{ from: '12:30', to: '13:00' }],
  }));
  const hands = ['ada', 'ben'].map((id) => ({
    id,
    name: id,
    roles: ['builder' as const],
    abilities: startingKit.skills.map((skill) => ({ skill: skill.id, level: 2 })),
    shifts,
  }));
  const wordsOf = (id: string) =>
    startingKit.procedures
      .filter((one) => one.id === id)
      .flatMap(({ steps }) => steps)
      .filter(({ skill }) => skill === null)
      .map(({ id: step }) => ({ step, expected: '2026-12-02T09:00:00Z' }));
  const file: YardInput = {
    ...startingKit,
    format: 'curewright-yard',
    version: 1,
    id: 'kit',
    name: 'A yard with the kit',
    timeZone: 'Europe/London',
    planFrom: '2026-11-30T08:00:00Z',
    people: [...hands],
    spaces: [
      {
        id: 'shed',
        name: 'Shed',
        climate: {
          kind: 'heated',
          setPoints: [{ weekdays: [1, 2, 3, 4, 5, 6, 7], from: '00:00', celsius }],
        },
        room: 6,
        dustReaches: ['shed'],
        settlingMinutes: 30,
      },
    ],
    boats: [
      {
        id: 'petrel',
        name: 'Petrel',
        refits: [
          {
            id: 'petrel-winter',
            name: 'Petrel, winter',
            release: '2026-11-30T08:00:00Z',
            parts: procedures.map((procedure) => ({
              id: `part-${procedure}`,
              name: `Part for ${procedure}`,
              space: 'shed',
              areaM2: 0.8,
              edgeM: 3.6,
              jointM: 3,
              layers:
                procedure === 'cored-panel'
                  ? [{ base: 'foam' as const, mm: 15 }]
                  : [{ base: 'polyester' as const, surface: 'sealed' as const, mm: 6 }],
              jobs: [
                {
                  id: `job-${procedure}`,
                  procedure,
                  destination: procedure === 'bulkhead-tabbed' ? 'shed' : null,
                  words: wordsOf(procedure),
                },
              ],
            })),
          },
        ],
      },
    ],
  };
  return readYard(JSON.parse(JSON.stringify(file)), 'kit');
}

const ids = startingKit.procedures.map(({ id }) => id);

describe('the starting kit', () => {
  it('has the eight procedures that need nothing from outside the yard', () => {
    expect(ids).toHaveLength(8);
    expect(ids).not.toContain('crane-lift');
    for (const { steps } of startingKit.procedures)
      for (const { slots, barrier, consumes, price } of steps)
        expect([slots, barrier, consumes, price]).toEqual([
          undefined,
          undefined,
          undefined,
          undefined,
        ]);
  });

  it('puts nothing in the place of what the catalogue knows, and says what its own numbers are', () => {
    for (const { classId, milestones = [], hardener, cautions = [] } of startingKit.materials) {
      const known = classOf(classId ?? '');
      expect(known, String(classId)).toBeDefined();
      for (const { milestone, source, trust } of milestones) {
        expect(known?.milestones[milestone]).toBeUndefined();
        expect([source, trust]).toEqual([expect.stringContaining('no source'), 'practice']);
      }
      // What a product takes is the product's: nothing is weighed by a guess.
      expect(hardener).toBeUndefined();
      expect(cautions.join(' ')).toContain('data sheet');
    }
  });

  it.each(ids)('has a plan that the checker accepts for %s', (procedure) => {
    const yard = yardWith([procedure]);
    const { problem } = compile({ yard, workload: makeWorkload(yard) });
    expect(validate(problem)).toEqual([]);
    const { plan } = solve(problem, { seed: 1, iterations: 16 });
    expect(plan === null ? 'no plan' : check(problem, plan)).toEqual([]);
  });

  it('has one for all of them at once, with no surface left unprepared', () => {
    const yard = yardWith(ids);
    expect(yardWarnings(yard)).toEqual([]);
    const { problem } = compile({ yard, workload: makeWorkload(yard) });
    const { plan } = solve(problem, { seed: 1, iterations: 16 });
    expect(plan === null ? 'no plan' : check(problem, plan)).toEqual([]);
  });
});
