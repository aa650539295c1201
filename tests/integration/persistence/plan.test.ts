import { beforeAll, describe, expect, it } from 'vitest';
import { inYard, type Transaction } from '#persistence/client.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import { loadPlan, savePlan } from '#persistence/plan/store.ts';
import { type Refusal, refusalOf } from '#persistence/refusal.ts';
import { saveYard } from '#persistence/yard/store.ts';
import type { PlanMap } from '#planning/compile/map.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { SolveResult } from '#scheduling/model/plan.ts';
import type { Activity, Mode, Problem } from '#scheduling/model/problem.ts';
import { testDatabase } from '#tests/support/database.ts';
import { smallYard } from './small-yard.ts';

const database = testDatabase();

const within = <T>(work: (tx: Transaction) => Promise<T>, client?: PrismaClient): Promise<T> =>
  inYard(client ?? database.service, { yardId: 'y', personId: null }, work);

const refusal = async (work: Promise<unknown>): Promise<Refusal | null> =>
  refusalOf(
    await work.then(
      () => undefined,
      (error: unknown) => error,
    ),
  );

const mode: Mode = {
  duration: 0,
  work: 6000,
  floor: 0,
  crew: [{ skill: 0, minLevel: 1, count: 1 }],
  demands: [],
  splittable: true,
  breaks: 'observed',
  forbiddenStarts: [],
  space: null,
  air: 'clean',
};
const activity = (id: string): Activity => ({
  id,
  refit: 0,
  modes: [mode, mode],
  release: 0,
  fixed: null,
  source: `task:first.${id}`,
});
const problem: Problem = {
  version: 1,
  origin: '2027-01-04T08:00:00Z',
  horizon: 20_000,
  skills: ['laminate'],
  calendars: [{ id: 'c', shifts: [{ start: 0, end: 480 }], breaks: [] }],
  builders: [
    { id: 'b', calendar: 0, abilities: [], source: 'person:ben' },
    { id: 'a', calendar: 0, abilities: [{ skill: 0, level: 3, speed: 100 }], source: 'person:ann' },
  ],
  resources: [],
  spaces: [],
  activities: [activity('wet'), activity('sand'), activity('wipe')],
  tables: [],
  lags: [],
  choices: [],
  surfaces: [],
  refits: [{ id: 'r', release: 0, due: 36_000, weight: 2, source: 'refit:heron-27' }],
  tolerances: [0, 240],
};
const map: PlanMap = {
  version: 1,
  yardId: 'y',
  timeZone: 'Europe/London',
  origin: '2027-01-04T08:00:00Z',
  horizon: 20_000,
  tasks: ['first.wet', 'first.sand', 'first.wipe'],
  people: ['ben', 'ann'],
  spaces: [],
  refits: ['heron-27'],
  skills: ['laminate'],
  resources: [],
  lags: [],
  choices: [],
  decided: [],
  dropped: [],
};
const when = { at: '2027-01-04T08:00:00Z', local: '2027-01-04T08:00' };
const sheet: PlanSheet = {
  version: 1,
  yardId: 'y',
  yard: 'Yard',
  timeZone: 'Europe/London',
  origin: when,
  horizon: when,
  status: 'feasible',
  tasks: [],
  choices: [],
  boats: [],
  lateness: null,
  finishes: null,
  caution: 'Test the film first.',
};
const result: SolveResult = {
  status: 'feasible',
  plan: {
    placements: [
      {
        activity: 0,
        mode: 1,
        start: 15,
        finish: 75,
        segments: [{ start: 15, end: 75 }],
        crew: [{ builder: 1, demand: 0 }],
      },
      {
        activity: 2,
        mode: 0,
        start: 1000,
        finish: 2000,
        segments: [
          { start: 1000, end: 1100 },
          { start: 1900, end: 2000 },
        ],
        crew: [
          { builder: 1, demand: 0 },
          { builder: 0, demand: 1 },
        ],
      },
    ],
    branches: [1, 0],
    finishes: [2000],
    values: [0, 4000],
  },
  bounds: [
    { bound: 0, cap: null, gap: 0, gapMinutes: 0, proof: 'critical-path' },
    { bound: 3800, cap: 0, gap: 0.05, gapMinutes: 200, proof: 'crew-hours' },
  ],
  chains: [
    {
      refit: 0,
      links: [
        { from: null, to: 0, reason: { kind: 'release' }, until: 15 },
        { from: 0, to: 2, reason: { kind: 'builder', builder: 1 }, until: 1000 },
      ],
    },
  ],
  floats: [12, null, 0],
  infeasibility: null,
  iterations: 500,
  foundAt: 321,
};

const run = (id: string): Promise<unknown> =>
  within((tx) => tx.planRun.create({ data: { yardId: 'y', id } }));
const firstRun = '00000000-0000-4000-8000-00000000000a';
const save = (runId: string, change: Partial<SolveResult> = {}): Promise<string> =>
  within((tx) =>
    savePlan(tx, {
      yardId: 'y',
      runId,
      problem,
      result: { ...result, ...change },
      sheet,
      map,
      engineVersion: '1.2.3',
    }),
  );
let planId = '';

beforeAll(async () => {
  await within((tx) => saveYard(tx, smallYard('y')));
  await run(firstRun);
  planId = await save(firstRun);
});

describe('a plan', () => {
  it('comes back as the engine gave it, with its problem', async () => {
    const stored = await within((tx) => loadPlan(tx, 'y', planId));
    expect(stored.problem).toEqual(problem);
    expect(stored.result).toEqual(result);
    expect([stored.runId, stored.engineVersion]).toEqual([firstRun, '1.2.3']);
  });

  it('has rows in times and names', async () => {
    const rows = await within((tx) =>
      tx.planPlacement.findMany({
        where: { yardId: 'y', planId, crew: { some: { memberId: 'ben' } } },
        select: { taskId: true, startAt: true, segmentEnds: true, floatMinutes: true },
      }),
    );
    expect(rows).toEqual([
      {
        taskId: 'first.wipe',
        startAt: new Date('2027-01-05T00:40:00Z'),
        segmentEnds: [new Date('2027-01-05T02:20:00Z'), new Date('2027-01-05T17:20:00Z')],
        floatMinutes: 0,
      },
    ]);
  });

  it('is the only one of its run', async () => {
    expect(await refusal(save(firstRun))).toEqual({
      kind: 'unique',
      constraint: 'plan_yard_id_run_id_key',
    });
  });

  it('shares the problem with another run of the same', async () => {
    const runId = '00000000-0000-4000-8000-00000000000b';
    await run(runId);
    await save(runId, { status: 'optimal' });
    expect(await within((tx) => tx.compiledProblem.count({ where: { yardId: 'y' } }))).toBe(1);
    expect(await within((tx) => tx.plan.count({ where: { yardId: 'y' } }))).toBe(2);
  });

  it('of another yard is missing', async () => {
    await expect(within((tx) => loadPlan(tx, 'z', planId))).rejects.toMatchObject({
      code: 'record.missing',
    });
  });

  it('takes no row once its transaction is over', async () => {
    const late = within((tx) =>
      tx.planRefit.create({
        data: { yardId: 'y', planId, refit: 9, refitId: 'x', finishAt: new Date() },
      }),
    );
    expect(await refusal(late)).toEqual({ kind: 'immutable', constraint: 'plan_complete' });
  });

  it.each([
    ['plan', 'engine_version'],
    ['compiled_problem', 'hash'],
    ['plan_refit', 'refit_id'],
    ['plan_placement', 'task_id'],
    ['plan_placement_crew', 'member_id'],
  ])(
    '%s rows are never changed: not by the service, which may not, nor by their owner',
    async (table, column) => {
      for (const sql of [`UPDATE ${table} SET ${column} = ${column}`, `DELETE FROM ${table}`]) {
        const asService = within((tx) => tx.$executeRawUnsafe(sql));
        expect(await refusal(asService)).toMatchObject({ kind: 'permission' });
        const asOwner = within((tx) => tx.$executeRawUnsafe(sql), database.owner);
        expect(await refusal(asOwner)).toEqual({
          kind: 'immutable',
          constraint: `${table}_immutable`,
        });
      }
      const emptied = within(
        (tx) => tx.$executeRawUnsafe(`TRUNCATE ${table} CASCADE`),
        database.owner,
      );
      expect(await refusal(emptied)).toMatchObject({ kind: 'immutable' });
    },
  );
});
