import { readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { classOf } from '#cure/catalogue/classes.ts';
import { compile, type Compiled } from '#planning/compile/compile.ts';
import { observedMaterials } from '#planning/compile/observed/observed.ts';
import { frameOf } from '#planning/compile/frame/time.ts';
import { makeSheet } from '#planning/decode/make-sheet.ts';
import { standing } from '#planning/decode/ready/standing.ts';
import { yardWarnings } from '#planning/yard/check/warnings.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Task, Workload } from '#planning/workload/workload.ts';
import { readYard } from '#planning/yard/read.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { check } from '#scheduling/checker/check.ts';
import type { SolveResult } from '#scheduling/model/plan.ts';
import type { Lag, Problem } from '#scheduling/model/problem.ts';
import { readDown, readUp } from '#scheduling/model/lag-table.ts';
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
    expect(demoCompiled.problem.activities).toHaveLength(151);
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

  it.each(['demo-yard', 'yard-of-one'])(
    'prepares every coat of %s in time by the bond rules: no wipe is stale, no face left bare',
    (name) => {
      expect(yardWarnings(read(name))).toEqual([]);
    },
  );

  it('takes off blush, wax and dust in the order of the bond rules, and lets the wipe flash off', () => {
    const order = ['dewax', 'wash', 'abrade', 'extract', 'wipe'];
    for (const { id, steps, links, choices } of demo.procedures) {
      for (const { prepares } of steps) {
        const ranks = prepares.map(({ kind }) => order.indexOf(kind));
        expect(ranks, id).toEqual([...ranks].sort((a, b) => a - b));
      }
      for (const { branches } of choices) {
        const prepared = branches.find((branch) => branch.id === 'prepare')?.steps ?? [];
        expect(prepared, id).toHaveLength(2);
        const [key, wipe] = prepared.map((step) => steps.find((one) => one.id === step));
        const kinds = [...(key?.prepares ?? []), ...(wipe?.prepares ?? [])].map(({ kind }) => kind);
        expect(kinds).toEqual([
          expect.stringMatching(/^(wash|dewax)$/),
          'abrade',
          'extract',
          'wipe',
        ]);
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
    const invented = 'Invented demo data sheet, not a real product';
    for (const { milestones, name, classId, ...rest } of demo.materials) {
      expect(name).toMatch(/\(invented\)$/);
      expect(classOf(classId ?? ''), name).toBeDefined();
      for (const { source, rows, spread } of milestones) {
        expect(source).toBe(invented);
        expect(rows.length).toBeGreaterThanOrEqual(4);
        expect(spread).toBe(1.1);
      }
      const sources = JSON.stringify(rest).match(/"source":"[^"]*"/g) ?? [];
      expect(sources.length).toBeGreaterThan(5);
      expect(new Set(sources)).toEqual(new Set([`"source":"${invented}"`]));
    }
    expect(new Set(demo.fabrics.map(({ source }) => source))).toEqual(new Set([invented]));
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
    // Work for two weeks and a half from Monday 30 November on; badly planned, the last of it
    // misses the crane of the 18th and has that of the 22nd.
    const last =
      sheet.boats
        .map(({ finish }) => finish.local.slice(0, 10))
        .sort()
        .at(-1) ?? '';
    expect(last >= '2026-12-09' && last <= '2026-12-22').toBe(true);
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

  it('has timed its cups and tried its panels, and leaves out the cup that was mixed wrong', () => {
    const { calibrations } = observedMaterials(demo, frameOf(demo, undefined, undefined));
    const own = calibrations.get('demo-laminating-epoxy') ?? [];
    expect(own.map(({ milestone }) => milestone)).toEqual(['pot-life', 'sandable']);
    const [cups, panels] = own;
    expect(cups.evidence.map(({ finding, flag }) => [finding.id, flag])).toEqual([
      ['cup-one', null],
      ['cup-two', null],
      ['cup-three', null],
      ['cup-four', 'outlier'],
    ]);
    expect(cups.factor).toBeGreaterThan(1.01);
    expect(cups.factor).toBeLessThan(1.2);
    expect(panels.evidence.map(({ flag }) => flag)).toEqual([null, null]);
    for (const { spread, prior } of own) expect(spread).toBeLessThan(prior.spread);
  });

  // A rule binds if planning without it makes use of that.
  it('is bound by closing windows (so that bonding or preparing is a question), by cures and by dust', () => {
    const { problem } = demoCompiled;
    const without = (of: (lag: Lag) => boolean, minutes: number): Problem => ({
      ...problem,
      lags: problem.lags.map((lag) =>
        of(lag) ? { ...lag, fns: [{ kind: 'constant', minutes }] } : lag,
      ),
    });
    const closes = ({ bound, fns }: Lag): boolean => bound === 'close' && fns[0].kind === 'table';
    const sands = ({ bound, kind }: Lag): boolean => bound === 'open' && kind === 'sand';
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
    const late = brokenBy(problem, without(closes, 2 * problem.horizon));
    expect(late.rules).toContain('lag-close');
    expect(late.lags).toContain('bond');
    const early = brokenBy(problem, without(sands, 0));
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
    const { ready } = standing({ yard: demo, workload: begun, sheet, now });
    expect(ready.length).toBeGreaterThan(0);
  });
});

describe('the demo yard with its hull 4 °C colder', () => {
  /** Nothing heats or dries it, so that it follows the weather. */
  const hull = (warmerBy: number): Yard => {
    const yard = structuredClone(demo);
    for (const space of yard.spaces) {
      if (space.id !== 'kornog-inside') continue;
      space.changes = [];
      space.humidity = { kind: 'held', percent: 60 };
      space.climate = { kind: 'outdoors', lagHours: 4, warmerBy };
    }
    return yard;
  };
  const mild = compile({ yard: hull(3.5), workload: makeWorkload(demo) });
  const cold = compile({ yard: hull(-0.5), workload: makeWorkload(demo) });

  it('has every opening and closing in the hull later for the same start, and no other', () => {
    const { problem } = mild;
    expect(cold.problem.tables.map(({ id }) => id)).toEqual(problem.tables.map(({ id }) => id));
    const reads = [readUp, readDown];
    let compared = 0;
    problem.tables.forEach((table, t) => {
      const other = cold.problem.tables[t];
      if (!table.id.includes('kornog-inside')) {
        expect(other).toEqual(table);
        return;
      }
      const read = reads[Number(table.id.includes('/close/'))];
      for (let minute = 0; minute <= problem.horizon; minute += 20) {
        const [before, after] = [read(table, minute), read(other, minute)];
        if (before > problem.horizon) expect(after).toBeGreaterThan(problem.horizon);
        else if (after <= before)
          throw new Error(`${table.id} at ${minute}: ${after} is not after ${before}`);
        else compared++;
      }
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
    // One cup, without a lap: 0.6 m² × 300 g/m² = 180 g, 35 % more is 243 g, spread before it gels.
    const coat = sheet.tasks.find(({ id }) => id === 'wren-tiller-lid.finish-coat');
    const cups = coat?.mix?.cups ?? [];
    expect(cups.map(({ resinGrams, hardenerGrams }) => resinGrams + hardenerGrams)).toEqual([
      expect.closeTo(243, 0),
    ]);
    expect(cups.every(({ potLifeEnds }) => potLifeEnds.at >= (coat?.finish.at ?? ''))).toBe(true);
  });
});
