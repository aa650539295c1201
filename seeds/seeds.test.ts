import { readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { compile, type Compiled } from '#planning/compile/compile.ts';
import { makeSheet } from '#planning/decode/make-sheet.ts';
import { readyList } from '#planning/decode/ready.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Task, Workload } from '#planning/workload/workload.ts';
import { readYard } from '#planning/yard/read.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { check } from '#scheduling/checker/check.ts';
import type { SolveResult } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { validate } from '#scheduling/model/validate.ts';
import { solve } from '#scheduling/solve.ts';
import { procedures } from './procedures.ts';

vi.setConfig({ testTimeout: 60_000 }); // searches, on a machine that may be busy

const ITERATIONS = 32; // enough for a plan, little enough for a slow machine

function read(name: string): Yard {
  const path = new URL(`${name}.json`, import.meta.url);
  return readYard(JSON.parse(readFileSync(path, 'utf8')), name);
}

function planned(problem: Problem, iterations = ITERATIONS): SolveResult {
  expect(validate(problem)).toEqual([]);
  return solve(problem, { seed: 1, iterations });
}

/** The kinds of rule of `problem` that the plan of a problem without some of them breaks, and of lag. */
function brokenBy(problem: Problem, without: Problem): { rules: Set<string>; lags: Set<string> } {
  const { plan } = planned(without, 4);
  if (plan === null) throw new Error('no plan was found');
  expect(check(without, plan)).toEqual([]);
  const wrong = check(problem, plan);
  return {
    rules: new Set(wrong.map(({ kind }) => kind)),
    lags: new Set(
      wrong.flatMap(({ constraint }) =>
        constraint?.kind === 'lag' ? problem.lags[constraint.lag].kind : [],
      ),
    ),
  };
}

const demo = read('demo-yard');
const demoCompiled: Compiled = compile({ yard: demo, workload: makeWorkload(demo) });

describe('the demo yard', () => {
  it('has the size it is meant to have, and every procedure at work', () => {
    const refits = demo.boats.flatMap(({ refits: list }) => list);
    const parts = refits.flatMap(({ parts: list }) => list);
    expect(demo.people.filter(({ roles }) => roles.includes('builder'))).toHaveLength(6);
    expect(demo.spaces).toHaveLength(6);
    expect(demo.boats).toHaveLength(3);
    expect(parts).toHaveLength(15);
    expect(demoCompiled.problem.activities).toHaveLength(139);
    expect(procedures).toHaveLength(9);
    const used = new Set(parts.flatMap(({ jobs }) => jobs.map(({ procedure }) => procedure)));
    expect([...used].sort()).toEqual(procedures.map(({ id }) => id).sort());
    const handled = demo.procedures.flatMap(({ steps }) =>
      steps.flatMap(({ tools, holds }) => [...tools, ...holds]),
    );
    expect(new Set(handled.map(({ tool }) => tool))).toEqual(
      new Set(demo.tools.map(({ id }) => id)),
    );
  });

  it('washes before it abrades, wipes before it coats, and lets the wipe flash off', () => {
    for (const { id, steps, links, choices } of demo.procedures) {
      for (const { branches } of choices) {
        const prepared = branches.find((branch) => branch.id === 'prepare')?.steps ?? [];
        expect(prepared, id).toHaveLength(2);
        const [key, wipe] = prepared.map((step) => steps.find((one) => one.id === step));
        expect(key?.name).toMatch(/^Wash and abrade/);
        expect(wipe?.name).toMatch(/^Vacuum and wipe/);
        const coat = links.find(({ from }) => from === wipe?.id);
        expect(coat).toMatchObject({
          opens: { kind: 'after', minutes: 15 },
          closes: { kind: 'after', minutes: 240 },
        });
      }
      for (const { from, to } of links) {
        const [before, after] = [from, to].map((step) => steps.find((one) => one.id === step));
        if (before?.air === 'dusty' && after?.air === 'wet')
          expect(before.name, `${id}: ${from}, before a film`).toMatch(/vacuum/);
      }
    }
  });

  it('labels every number as invented or as practice without a source', () => {
    for (const { milestones, name } of demo.materials) {
      expect(name).toMatch(/\(invented\)$/);
      for (const { source, rows } of milestones) {
        expect(source).toBe('Invented demo data sheet, not a real product');
        expect(rows.length).toBeGreaterThanOrEqual(4);
      }
    }
    expect(demo.outdoor?.source).toMatch(/^Invented/);
    const efforts = demo.procedures.flatMap(({ steps }) =>
      steps.map(({ effort }) => effort.source),
    );
    expect(new Set(efforts)).toEqual(new Set(['common practice, no source']));
  });

  it('has a plan that the checker accepts, and a sheet that says all of it', () => {
    const { problem } = demoCompiled;
    const result = planned(problem);
    expect(result.plan === null ? null : check(problem, result.plan)).toEqual([]);
    const sheet = makeSheet({
      compiled: demoCompiled,
      result,
      yard: demo,
      workload: makeWorkload(demo),
    });
    expect(sheet.tasks).toHaveLength(result.plan?.placements.length ?? -1);
    expect(sheet.boats.map(({ boat }) => boat)).toEqual(['Kornog', 'Tangon', 'Petite Ourse']);
    for (const { chain, tasks } of sheet.boats) {
      expect(chain.length).toBeGreaterThan(0);
      expect(tasks).toBeGreaterThan(20);
    }
    // Work for two weeks and a half from Monday 30 November on, more or less well planned.
    const last =
      sheet.boats
        .map(({ finish }) => finish.local.slice(0, 10))
        .sort()
        .at(-1) ?? '';
    expect(last >= '2026-12-09' && last <= '2026-12-21').toBe(true);
    for (const { air, film } of sheet.tasks) expect(film.length > 0).toBe(air === 'wet');
    const { labour, overtime, slots, prices, total } = sheet.money;
    expect(Math.abs(labour + overtime + slots + prices - total)).toBeLessThanOrEqual(2); // cents, each rounded
    expect(sheet.ranks.map(({ rank }) => rank)).toEqual([
      'promises',
      'finishes',
      'money',
      'disturbance',
    ]);
    for (const id of ['kornog-lift.lift', 'kornog-bulkhead.survey', 'tangon-bulkhead.survey'])
      expect(sheet.tasks.find((task) => task.id === id)?.slot, id).not.toBeNull();
    expect(sheet.choices).toHaveLength(10);
  });

  // A rule binds if planning without it makes use of that.
  it('is bound by closing windows (so that bonding or preparing is a question), by cures and by dust', () => {
    const { problem } = demoCompiled;
    const unbound = (bound: 'open' | 'close'): Problem => ({
      ...problem,
      lags: problem.lags.map((lag) => {
        if (lag.bound !== bound || lag.fns[0].kind !== 'table') return lag;
        const minutes = bound === 'open' ? -problem.horizon : 2 * problem.horizon;
        return { ...lag, fns: [{ kind: 'constant', minutes }] };
      }),
    });
    const dustless: Problem = {
      ...problem,
      surfaces: [],
      activities: problem.activities.map((activity) => ({
        ...activity,
        modes: activity.modes.map((mode) => ({
          ...mode,
          air: mode.air === 'dusty' ? 'clean' : mode.air,
        })),
      })),
    };
    const late = brokenBy(problem, unbound('close'));
    expect(late.rules).toContain('lag-close');
    expect(late.lags).toContain('bond');
    const early = brokenBy(problem, unbound('open'));
    expect(early.rules).toContain('lag-open');
    expect(early.lags).toContain('sand');
    expect(brokenBy(problem, dustless).rules).toEqual(new Set(['dust']));
  });
});

describe('the demo yard planned again once work has begun as planned', () => {
  const workload = makeWorkload(demo);
  const sheet = makeSheet({
    compiled: demoCompiled,
    result: planned(demoCompiled.problem),
    yard: demo,
    workload,
  });

  /** The demo's work as it stands at an instant, everything having gone to plan. */
  function at(now: string): Workload {
    const clock = new Date(now).toISOString();
    const tasks = workload.tasks.map((task): Task => {
      const row = sheet.tasks.find(({ id }) => id === task.id);
      if (row === undefined || row.start.at > clock) return task;
      const done = row.finish.at <= clock;
      return {
        ...task,
        state: done ? 'done' : 'working',
        startedAt: row.start.at,
        finishedAt: done ? row.finish.at : null,
        crew: row.crew.map(({ personId }) => personId),
      };
    });
    return { ...workload, tasks };
  }

  it.each([
    ['2026-12-03T11:10:00+01:00', 'from the beginning', undefined],
    ['2026-12-03T11:10:00+01:00', 'from then', '2026-12-03T11:10:00+01:00'],
    ['2026-12-08T09:30:00+01:00', 'from then', '2026-12-08T09:30:00+01:00'],
  ])('at %s, %s', (now, _, from) => {
    const begun = at(now);
    const done = begun.tasks.filter(({ state }) => state === 'done').length;
    expect(done).toBeGreaterThan(20);
    const { problem } = compile({ yard: demo, workload: begun, now, from });
    const { plan } = planned(problem);
    expect(plan === null ? null : check(problem, plan)).toEqual([]);
    const ready = readyList({ yard: demo, workload: begun, sheet, now }).ready;
    expect(ready.length).toBeGreaterThan(0);
  });
});

describe('the demo yard with its hull 8 °C colder', () => {
  const colder = structuredClone(demo);
  for (const { id, climate } of colder.spaces) {
    if (id === 'kornog-inside' && climate.kind === 'outdoors') climate.warmerBy -= 8;
  }
  const cold = compile({ yard: colder, workload: makeWorkload(colder) });

  it('has every opening and closing in the hull later for the same start, and no other', () => {
    const { problem } = demoCompiled;
    const never = problem.horizon + 1;
    expect(cold.problem.tables.map(({ id }) => id)).toEqual(problem.tables.map(({ id }) => id));
    let compared = 0;
    problem.tables.forEach(({ id, values }, t) => {
      const other = cold.problem.tables[t].values;
      if (!id.includes('kornog-inside')) {
        expect(other).toEqual(values);
        return;
      }
      values.forEach((value, k) => {
        if (value === never) expect(other[k]).toBe(never);
        else if (other[k] <= value)
          throw new Error(
            `${id} at ${String(k)}: ${String(other[k])} is not after ${String(value)}`,
          );
        else compared++;
      });
    });
    expect(compared).toBeGreaterThan(10_000);
  });

  it('still has a plan that the checker accepts', () => {
    const { plan } = planned(cold.problem);
    expect(plan === null ? null : check(cold.problem, plan)).toEqual([]);
  });
});

describe('the yard of one', () => {
  const yard = read('yard-of-one');
  const workload = makeWorkload(yard);
  const compiled = compile({ yard, workload });

  it('is one person with one boat and five parts, on evenings and weekends', () => {
    expect(yard.people.map(({ roles }) => roles)).toEqual([['foreman', 'builder', 'owner']]);
    expect(yard.boats).toHaveLength(1);
    expect(yard.boats[0].refits[0].parts).toHaveLength(5);
    expect(yard.boats[0].owner).toBe(yard.people[0].id);
    for (const { weekday, from } of yard.people[0].shifts)
      expect(weekday >= 6 || from >= '17:00').toBe(true);
  });

  it('has a plan that the checker accepts', () => {
    const result = planned(compiled.problem);
    expect(result.plan === null ? null : check(compiled.problem, result.plan)).toEqual([]);
    const sheet = makeSheet({ compiled, result, yard, workload });
    expect(new Set(sheet.tasks.flatMap(({ crew }) => crew.map(({ name }) => name)))).toEqual(
      new Set(['Perrin Holloway']),
    );
  });
});
