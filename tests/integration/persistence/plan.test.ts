import { beforeAll, describe, expect, it } from 'vitest';
import { inYard, service, type Transaction } from '#persistence/client.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import { loadPlan, savePlan } from '#persistence/plan/store.ts';
import { type Refusal, refusalOf } from '#persistence/refusal.ts';
import { saveYard } from '#persistence/yard/store.ts';
import type { PlanMap } from '#planning/compile/trace/map.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { SolveResult } from '#scheduling/model/plan.ts';
import { benchmarkProblem } from '#scheduling/formats/benchmark.ts';
import { plainMode } from '#scheduling/model/plain.ts';
import type { Activity, Builder, Mode, Problem } from '#scheduling/model/problem.ts';
import { testDatabase } from '#tests/support/database.ts';
import { smallYard } from './small-yard.ts';

const database = testDatabase();

const within = <T>(work: (tx: Transaction) => Promise<T>, client?: PrismaClient): Promise<T> =>
  inYard(client ?? database.service, service('y'), work);

const refusal = async (work: Promise<unknown>): Promise<Refusal | null> =>
  refusalOf(
    await work.then(
      () => undefined,
      (error: unknown) => error,
    ),
  );

const way: Mode = plainMode({
  work: 6000,
  crew: [{ skill: 0, minLevel: 1, count: 1 }],
  splittable: true,
  breaks: 'observed',
});
const activity = (id: string): Activity => ({
  id,
  refit: 0,
  modes: [way, way],
  releases: [{ at: 15, kind: 'boat', source: 'refit:heron-27' }],
  parts: [],
  fixed: null,
  source: `task:first.${id}`,
});
const builder = (id: string, person: string, abilities: Builder['abilities']): Builder => ({
  id,
  calendar: 0,
  abilities,
  cost: 0,
  unlimited: false,
  source: `person:${person}`,
});
const shift = { start: 0, end: 480 };
const problem: Problem = {
  ...benchmarkProblem('r', {
    horizon: 20_000,
    skills: ['laminate'],
    calendars: [{ id: 'c', shifts: [shift], breaks: [], overtime: [], source: 'calendar:ann' }],
    builders: [
      builder('b', 'ben', []),
      builder('a', 'ann', [{ skill: 0, level: 3, speed: 100, needsSenior: false }]),
    ],
    activities: [activity('wet'), activity('sand'), activity('wipe')],
    lags: [],
  }),
  origin: '2027-01-04T08:00:00Z',
  refits: [
    { id: 'r', release: 0, due: 36_000, handovers: [], weight: 2, source: 'refit:heron-27' },
  ],
  tolerances: [0, 240, 500],
};
const map: PlanMap = {
  version: 2,
  yardId: 'y',
  timeZone: 'Europe/London',
  currency: 'EUR',
  origin: '2027-01-04T08:00:00Z',
  horizon: 20_000,
  tasks: ['first.wet', 'first.sand', 'first.wipe'],
  people: ['ben', 'ann'],
  spaces: [],
  refits: ['heron-27'],
  skills: ['laminate'],
  resources: [],
  parts: [],
  stocks: [],
  barriers: [],
  slotLists: [],
  lags: [],
  choices: [],
  decided: [],
  dropped: [],
  rows: {},
};
const when = { at: '2027-01-04T08:00:00Z', local: '2027-01-04T08:00' };
const sheet: PlanSheet = {
  version: 3,
  yardId: 'y',
  yard: 'Yard',
  timeZone: 'Europe/London',
  currency: 'GBP',
  origin: when,
  horizon: when,
  status: 'feasible',
  tasks: [],
  choices: [],
  boats: [],
  ranks: [],
  money: { labour: 1, overtime: 2, slots: 3, prices: 4, climate: 5, total: 10 },
  moved: [],
  shopping: [],
  materials: [],
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
        overtime: true,
        slot: 3,
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
        overtime: false,
        slot: null,
      },
    ],
    branches: [1, 0],
    finishes: [2000],
    values: [0, 4000, 12_345, 6],
  },
  bounds: [
    { bound: 0, caps: [], gap: 0, distance: 0, proof: 'critical-path' },
    { bound: 3800, caps: [0], gap: 0.05, distance: 200, proof: 'crew-hours' },
    { bound: 12_000, caps: [0, 4240], gap: 0.03, distance: 345, proof: 'least-cost' },
    { bound: 6, caps: [0, 4240, 12_845], gap: 0, distance: 0, proof: 'none' },
  ],
  chains: [
    {
      refit: 0,
      links: [
        { from: null, to: 0, reason: { kind: 'release', activity: 0, release: 0 }, until: 15 },
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
    expect([stored.problem, stored.problemVersion, stored.map]).toEqual([problem, 2, map]);
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
