import { describe, expect, it } from 'vitest';
import { compile, type Compiled } from '#planning/compile/compile.ts';
import { rowOf, type Row } from '#planning/compile/trace/map.ts';
import { contradictionOf } from '#planning/decode/explain/infeasible.ts';
import { makeSheet } from '#planning/decode/make-sheet.ts';
import { whyNotEarlier } from '#planning/decode/explain/why-not-earlier.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { valueAt } from '#planning/yard/path.ts';
import { yardFaults } from '#planning/yard/check/check.ts';
import { yardSchema, type Yard } from '#planning/yard/yard.ts';
import { check } from '#scheduling/checker/check.ts';
import { constraintsOf } from '#scheduling/explanation/conflict/subject.ts';
import { justify } from '#scheduling/explanation/justify.ts';
import { traces } from '#scheduling/explanation/testing/trace.ts';
import { nudged } from '#scheduling/explanation/refusal.ts';
import type { Constraint } from '#scheduling/model/constraint.ts';
import { validate } from '#scheduling/model/validate.ts';
import { solve } from '#scheduling/solve.ts';
import { demoYard } from './demo-yard.ts';
import { generateYard, type YardSettings } from './generate/yard.ts';

const segments = (path: string): string[] =>
  path.split(/[.[\]]+/).filter((segment) => segment !== '');

/**
 * Whether what stands at a row's path is that row: a record's own id ends the row's, apart from
 * lists of hours, words and orders of jobs, which have none, and `dropped` fields.
 */
function stands(yard: Yard, row: Row): boolean {
  if (row.kind === 'now') return row.path === '';
  if (row.kind === 'horizon') return row.path === 'horizonDays';
  const value = valueAt(yard, segments(row.path));
  if (row.kind === 'word')
    return row.id.endsWith((value as { step?: string } | undefined)?.step ?? '?');
  if (typeof value === 'string') return row.id.includes(`${value}.`); // an order between jobs
  if (Array.isArray(value)) return /hours$|^calendar$/.test(row.kind);
  const id = (value as { id?: string } | undefined)?.id;
  return id !== undefined && row.id.endsWith(id);
}

/** Every constraint a problem has, those of the horizon and of choices with them. */
function everyConstraint({ problem }: Compiled): Constraint[] {
  return [
    ...constraintsOf(problem),
    ...problem.choices.map((_, choice): Constraint => ({ kind: 'choice', choice })),
    { kind: 'horizon' },
  ];
}

const yards: readonly (readonly [string, Yard])[] = [
  ['the demo yard', yardSchema.parse(demoYard)],
  ...[15, 40, 120, 300].flatMap((tasks, k) =>
    (['tight', 'loose'] as const).map((tightness): readonly [string, Yard] => {
      const boats = [1, 2, 3, 6][k];
      const season = k % 2 === 0 ? ('cold' as const) : ('warm' as const);
      const settings: YardSettings = { tasks, boats, tightness, season, seed: 7 + k };
      return [`${String(tasks)} tasks, ${tightness}, ${season}`, generateYard(settings)];
    }),
  ),
];

describe.each(yards)('%s', (_, yard) => {
  const workload = makeWorkload(yard);
  const compiled = compile({ yard, workload });
  const { problem, map } = compiled;

  it('is right, and a problem the engine takes', () => {
    expect(yardFaults(yard)).toEqual([]);
    expect(validate(problem)).toEqual([]);
  });

  it('has a row of the yard file for every constraint, and can say each', () => {
    const all = everyConstraint(compiled);
    const lost = all.map((one) => rowOf(map, problem, one)).filter((row) => !stands(yard, row));
    expect(lost).toEqual([]);
    const found = { irreducible: false, constraints: all, activities: [] };
    const { members } = contradictionOf(compiled, found);
    expect(members).toHaveLength(all.length);
    for (const { text } of members) expect(text).not.toMatch(/undefined|null|NaN/);
    // Each name is one of the yard's, or of its tasks'.
    expect(members.filter(({ row }) => row.name === '')).toEqual([]);
  });
});

describe('generateYard', () => {
  it.each([15, 40, 120, 300, 800])('has the tasks asked for, or a few less: %i', (tasks) => {
    for (const seed of [1, 2, 3]) {
      const boats = Math.min(10, Math.ceil(tasks / 60));
      const yard = generateYard({ tasks, boats, tightness: 'loose', season: 'cold', seed });
      const made = makeWorkload(yard).tasks.length;
      expect(made).toBeLessThanOrEqual(tasks);
      expect(made).toBeGreaterThanOrEqual(tasks - 5);
      expect(yard.boats).toHaveLength(boats);
    }
  });

  it('gives the same yard for the same seed, and another for another', () => {
    const settings: YardSettings = {
      tasks: 40,
      boats: 2,
      tightness: 'tight',
      season: 'warm',
      seed: 5,
    };
    expect(generateYard(settings)).toEqual(generateYard(settings));
    expect(generateYard({ ...settings, seed: 6 })).not.toEqual(generateYard(settings));
  });

  it.each(yards.slice(1, 7))('%s has a plan that the checker accepts', (_, yard) => {
    const { problem } = compile({ yard, workload: makeWorkload(yard) });
    const { plan } = solve(problem, { seed: 1, iterations: 1 });
    expect(plan === null ? 'no plan' : check(problem, plan)).toEqual([]);
  });
});

describe('every placement of the demo plan', () => {
  const [[, yard]] = yards;
  const workload = makeWorkload(yard);
  const compiled = compile({ yard, workload });
  const { problem, map } = compiled;
  const found = solve(problem, { seed: 1, iterations: 32 });
  if (found.plan === null) throw new Error('no plan was found');
  const plan = justify(problem, found.plan);
  const result = { ...found, plan };

  it('is refused a minute earlier, for the row that its reason names, and only for as long as that holds', () => {
    const asked = traces(problem, plan);
    expect(asked.flatMap(({ faults }) => faults)).toEqual([]);
    expect(
      asked.filter(({ reason }) => reason === null).map(({ activity }) => map.tasks[activity]),
    ).toEqual([]);
    for (const { activity, reason } of asked) {
      if (reason === null) continue;
      const told = whyNotEarlier({ problem, plan, map, task: map.tasks[activity] });
      const first = told?.steps.at(0);
      expect(first?.row).toEqual(rowOf(map, problem, reason));
      // The checker, asked about the minute, names the same yard row.
      const rows = check(problem, nudged(problem, plan, activity)).flatMap(({ constraint }) =>
        constraint === null ? [] : [rowOf(map, problem, constraint)],
      );
      expect(rows).toContainEqual(first?.row);
      expect(first?.text).not.toMatch(/undefined|null|NaN/);
    }
  });

  it('stands on the sheet with its people, slot and overtime', () => {
    const sheet = makeSheet({ compiled, result, yard, workload });
    for (const { activity, crew, slot, start, finish } of plan.placements) {
      const task = sheet.tasks.find(({ id }) => id === map.tasks[activity]);
      expect(task?.crew.map(({ personId }) => personId)).toEqual(
        crew.map(({ builder }) => map.people[builder]),
      );
      expect(task?.slot === null).toBe(slot === null);
      const minutes =
        (Date.parse(task?.finish.at ?? '') - Date.parse(task?.start.at ?? '')) / 60_000;
      expect(minutes).toBe(finish - start);
    }
  });
});
