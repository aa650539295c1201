import { afterAll, beforeAll, expect, test } from 'vitest';
import { z } from 'zod';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import { readSheet } from '#persistence/plan/sheet.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { type Answer, testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { planted } from '../support/planted.ts';
import { type Process, startWorkerProcess } from '../support/processes.ts';
import { publishPlan } from '../support/published-plan.ts';
import { settled } from '../support/settled.ts';
import { twoBoats } from '../support/two-boats.ts';
import { until } from '../support/until.ts';
import { ago, wallTime } from './alarms/alarm-yard.ts';

/** A plan of two boats that began half an hour ago: one hatch is laid up as planned, the other is not. */
const yardId = 'small';
const waits = 'petrel-panel.lay-up';
const begins = 'heron-panel.lay-up';
const graceMs = 30 * 60_000;
const database = testDatabase();
const api = testApi(database);
let worker: Process;
let foreman = '';
let sheet: PlanSheet;

const ask = (method: string, below: string, body?: unknown): Promise<Answer> =>
  api.rest(method, `/yards${below}`, {
    token: foreman,
    ...(body === undefined ? {} : { body }),
  });

function yardFrom(start: string): YardInput {
  const yard = twoBoats(start.slice(0, 10));
  return {
    ...yard,
    planFrom: start,
    boats: yard.boats?.map((boat) => ({
      ...boat,
      refits: boat.refits?.map((refit) => ({ ...refit, release: start })),
    })),
  };
}

function plannedTask(taskId: string, plan = sheet) {
  const found = plan.tasks.find(({ id }) => id === taskId);
  if (found === undefined) throw new Error(`the plan has no ${taskId}`);
  return found;
}

/** Begun by whom it is planned for. */
async function begin(taskId: string, at: string, plan = sheet): Promise<void> {
  const crew = plannedTask(taskId, plan).crew.map(({ personId }) => personId);
  const claim = await ask('POST', `/small/tasks/${taskId}/claims`, { crew, at });
  const began = await ask('POST', `/small/claims/${String(claim.body.id)}/start`, {
    at,
    override: { reason: 'it was so' },
  });
  expect([began.status, began.body]).toEqual([200, expect.anything()]);
}

const alarms = (where: object) =>
  database.owner.alarm.findMany({ where: { yardId, kind: 'unbegun', ...where } });
const openCandidate = () =>
  database.owner.candidate.findFirst({ where: { yardId, state: 'open' } });
const firstRuns = () =>
  database.owner.planRun.count({ where: { yardId, purpose: 'disturbance', seconds: { lte: 5 } } });

/** Ends what is searched for something better. */
async function stopSearching(): Promise<void> {
  await until(async () => {
    const { count } = await database.owner.planRun.updateMany({
      where: { yardId, purpose: 'disturbance', status: { in: ['queued', 'running'] } },
      data: { stopRequestedAt: new Date() },
    });
    return count === 0;
  }, 60_000);
  await settled(database, yardId);
}

beforeAll(async () => {
  await api.addAccount('ines@yard.test');
  foreman = await api.signIn('ines@yard.test');
  worker = await startWorkerProcess(database.serviceUrl);
  // Its half hour is over within the next minute.
  const start = ago(29);
  const made = await ask('POST', '', yardFrom(start));
  if (made.status !== 201) throw new Error(JSON.stringify(made.body));
  await api.join(yardId);
  sheet = await publishPlan(database, yardId);
  await database.owner.publishedPlan.update({ where: { yardId }, data: { publishedAt: start } });
  await begin(begins, plannedTask(begins).start.at);
  await planted(database, yardId);
}, 120_000);
afterAll(() => worker.end('SIGTERM'));

test('work that should have begun is told of once, by the first of its chain, and planned anew', async () => {
  const { start, crew } = plannedTask(waits);
  expect(Date.now() - Date.parse(start.at)).toBeGreaterThan(0);
  await until(async () => (await alarms({ state: 'rung' })).length > 0, 100_000);
  const [rung, ...others] = await alarms({ state: { not: 'void' } });
  expect(others).toEqual([]);
  expect(rung).toMatchObject({ taskId: waits, state: 'rung' });
  expect(rung.dueAt.getTime()).toBe(Date.parse(start.at) + graceMs);
  expect((rung.rungAt?.getTime() ?? NaN) - rung.dueAt.getTime()).toBeGreaterThan(-2_000);
  expect(rung.words).toBe(
    `lay-up (Hatch of Petrel, Petrel) should have begun at ${wallTime(start.at)}; nobody has begun ` +
      'it. Begin it, or say what holds it up.',
  );
  expect(rung.audience).toEqual([...crew.map(({ personId }) => personId), 'ines']);

  await until(async () => (await openCandidate()) !== null, 40_000);
  await stopSearching();
  const candidate = await openCandidate();
  expect(z.array(z.string()).parse(candidate?.cause)).toEqual([
    expect.stringMatching(/^"lay-up" \(Petrel, .*\) was to begin .*, and nobody has begun it\.$/),
  ]);
  const offered = await planOf(candidate?.planId ?? '');
  expect(Date.parse(plannedTask(waits, offered).start.at)).toBeGreaterThanOrEqual(
    Math.floor((rung.rungAt?.getTime() ?? NaN) / 60_000) * 60_000,
  );

  // Whatever else happens, nobody is told again, and no further plan is asked for.
  expect(await firstRuns()).toBe(1);
  await planted(database, yardId);
  await settled(database, yardId);
  expect((await alarms({ taskId: waits })).map(({ state }) => state)).toEqual(['rung']);
  expect(await firstRuns()).toBe(1);
}, 240_000);

test('another plan is another start, and is told of no more once the work has begun', async () => {
  const planId = (await openCandidate())?.planId ?? '';
  expect((await ask('POST', `/small/plans/${planId}/publish`)).status).toBe(200);
  await until(async () => (await alarms({ state: 'armed' })).length > 0, 40_000);
  const [armed, ...others] = await alarms({ state: 'armed' });
  expect(others).toEqual([]);
  expect(armed.taskId).toBe(waits);
  // Not again so soon after it was told of.
  const [told] = await alarms({ state: 'rung' });
  expect(armed.dueAt.getTime()).toBe((told.rungAt?.getTime() ?? NaN) + 4 * 60 * 60_000);
  await begin(waits, ago(0), await planOf(planId));
  await until(async () => (await alarms({ state: 'armed' })).length === 0, 40_000);
  expect((await alarms({ state: 'void' })).map(({ id }) => id)).toContain(armed.id);
  expect(await alarms({ taskId: begins, state: 'rung' })).toEqual([]);
}, 120_000);

async function planOf(id: string): Promise<PlanSheet> {
  const row = await database.owner.plan.findUniqueOrThrow({
    where: { yardId_id: { yardId, id } },
    select: { sheet: true },
  });
  return readSheet(row.sheet);
}
