import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { addDays } from '#calendar/local-date.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { testApi } from '#tests/support/api.ts';
import { testDatabase } from '#tests/support/database.ts';
import { makeYard, runsOf } from '#tests/support/plan-runs.ts';
import { type Process, startWorkerProcess } from '#tests/support/processes.ts';
import { people } from '#tests/support/small-yard-api.ts';
import { settled } from '#tests/support/settled.ts';
import { twoBoats } from '#tests/support/two-boats.ts';
import { until } from '#tests/support/until.ts';

const database = testDatabase();
const api = testApi(database);
const today = new Date().toISOString().slice(0, 10);
const yardId = 'small';
let worker: Process;
let foreman = '';
let builder = '';
const runs = runsOf(api, yardId, () => foreman);

const candidateSchema = z.looseObject({
  planId: z.string(),
  basePlanId: z.string(),
  state: z.string(),
  cause: z.array(z.string()),
  moved: z.int(),
  decidedBy: z.string().nullable(),
});
const viewSchema = candidateSchema.extend({
  since: z.array(z.string()),
  words: z.array(z.string()),
  boats: z.array(z.looseObject({ boatId: z.string() })),
});
type Candidate = z.output<typeof candidateSchema>;
const candidatePage = z.object({ items: z.array(candidateSchema) });
const sheetTaskSchema = z.looseObject({
  id: z.string(),
  name: z.string(),
  state: z.string(),
  air: z.string(),
  start: z.object({ at: z.string() }),
  crew: z.array(z.object({ personId: z.string() })),
});
const planSchema = z.object({ id: z.string(), tasks: z.array(sheetTaskSchema) });

/** Two boats of four parts each, and two builders: what one does, the other waits for. */
function busyYard(): YardInput {
  const yard = twoBoats(today);
  const few = new Set(['ines', 'bram', 'cato', 'odile', 'otto']);
  return {
    ...yard,
    people: yard.people?.filter(({ id }) => few.has(id)),
    boats: yard.boats?.map((boat) => ({
      ...boat,
      refits: boat.refits?.map((refit) => ({
        ...refit,
        parts: refit.parts?.flatMap((part) =>
          [1, 2, 3, 4].map((k) => ({
            ...part,
            id: `${part.id}-${String(k)}`,
            name: `${part.name} ${String(k)}`,
            jobs: part.jobs?.map((job) => ({ ...job, id: `${job.id}-${String(k)}` })),
          })),
        ),
      })),
    })),
  };
}

const at = (path: string): string => `/yards/${yardId}${path}`;

async function ask(method: string, path: string, body?: unknown, token = foreman) {
  const sending = { token, ...(body === undefined ? {} : { body }) };
  const answer = await api.rest(method, at(path), sending);
  if (answer.status >= 300) throw new Error(`${method} ${path}: ${JSON.stringify(answer.body)}`);
  return answer;
}

async function change(path: string, body: unknown): Promise<void> {
  const etag = (await ask('GET', path)).headers.get('etag') ?? '';
  const headers = { 'if-match': etag };
  const { status, body: said } = await api.rest('PATCH', at(path), {
    token: foreman,
    body,
    headers,
  });
  if (status !== 200) throw new Error(`PATCH ${path}: ${JSON.stringify(said)}`);
}

/** From so many days after today. */
const daysOff = (first: number, count: number) =>
  Array.from({ length: count }, (_, k) => ({
    date: addDays(today, first + k),
    shifts: [],
    reason: 'ill',
  }));

const publish = (planId: string) =>
  api.rest('POST', at(`/plans/${planId}/publish`), { token: foreman });

async function publishedPlan() {
  return planSchema.parse((await ask('GET', '/published-plan')).body);
}

async function candidates(): Promise<Candidate[]> {
  return candidatePage.parse((await ask('GET', '/candidates')).body).items;
}

/** An open candidate that is another one than those of before. */
async function newCandidate(before: readonly Candidate[]): Promise<Candidate> {
  const known = new Set(before.map(({ planId }) => planId));
  let found: Candidate | undefined;
  await until(async () => {
    found = (await candidates()).find(
      ({ planId, state }) => state === 'open' && !known.has(planId),
    );
    return found !== undefined;
  }, 40_000);
  if (found === undefined) throw new Error('there is no candidate');
  return found;
}

/** Ends what is searched for something better, so that the tests do not wait for it. */
async function stopSearching(): Promise<void> {
  await until(async () => {
    const now = new Date();
    const { count } = await database.owner.planRun.updateMany({
      where: { yardId, purpose: 'disturbance', status: { in: ['queued', 'running'] } },
      data: { stopRequestedAt: now },
    });
    return count === 0;
  }, 60_000);
  await settled(database, yardId);
}

/** Whatever the published plan says of them. */
async function waitingTasks(): Promise<ReadonlySet<string>> {
  const rows = await database.owner.task.findMany({ where: { yardId, state: 'waiting' } });
  return new Set(rows.map(({ id }) => id));
}

/** What has not begun, is planned last, and could begin now: nothing comes before it. */
async function lastFreeTask() {
  const { tasks } = await publishedPlan();
  const ready = z
    .object({ ready: z.array(z.looseObject({ taskId: z.string() })) })
    .parse((await ask('GET', '/ready?whose=all')).body).ready;
  const free = tasks.filter(
    ({ id, state }) => state === 'waiting' && ready.some(({ taskId }) => taskId === id),
  );
  const last = free.at(-1);
  if (last === undefined) throw new Error('nothing may be begun');
  return last;
}

beforeAll(async () => {
  for (const email of [people.foreman, people.builder]) await api.addAccount(email);
  foreman = await api.signIn(people.foreman);
  builder = await api.signIn(people.builder);
  await makeYard(api, busyYard(), foreman);
  worker = await startWorkerProcess(database.serviceUrl);
  const { id } = await runs.start({ notBefore: undefined, iterations: 64 });
  await runs.follow(id);
  const { planId, error, why } = await runs.get(id);
  expect({ error, why }).toEqual({ error: null, why: [] });
  expect((await publish(planId ?? '')).status).toBe(200);
  await settled(database, yardId);
}, 120_000);
afterAll(() => worker.end('SIGTERM'));

describe('something that happens', () => {
  it('brings a candidate with its cause, its difference and what it does not know', async () => {
    const base = await publishedPlan();
    const before = await candidates();
    await change('/people/cato', { exceptions: daysOff(-1, 9) });
    const candidate = await newCandidate(before);
    expect(candidate).toMatchObject({ state: 'open', basePlanId: base.id, decidedBy: null });
    expect(candidate.cause).toEqual(['What is known of cato was changed.']);
    expect(candidate.moved).toBeGreaterThan(0);
    const view = viewSchema.parse((await ask('GET', `/candidates/${candidate.planId}`)).body);
    expect(view.since).toEqual([]);
    expect(view.boats.length).toBeGreaterThan(0);
    expect(view.words.join('\n')).toContain(`${String(candidate.moved)} task`);
    const difference = (await ask('GET', `/plans/${candidate.planId}/difference`)).body;
    expect(difference).toMatchObject({ fromPlanId: base.id, moved: candidate.moved });
    const { body } = await ask('GET', `/plans/${candidate.planId}/check`);
    expect(body).toMatchObject({ violations: [] });
    const plan = planSchema.parse((await ask('GET', `/plans/${candidate.planId}`)).body);
    const ofCato = plan.tasks.filter(({ crew }) =>
      crew.some(({ personId }) => personId === 'cato'),
    );
    const back = Date.parse(`${addDays(today, 8)}T00:00:00Z`);
    for (const { start } of ofCato) expect(Date.parse(start.at)).toBeGreaterThanOrEqual(back);
    await stopSearching();
  });

  it('is published by the foreman, once, and goes into the history', async () => {
    const [{ planId }] = (await candidates()).filter(({ state }) => state === 'open');
    const before = await publishedPlan();
    expect((await publish(planId)).status).toBe(200);
    expect((await candidates()).find((one) => one.planId === planId)).toMatchObject({
      state: 'published',
      decidedBy: 'ines',
    });
    const { body } = await ask('GET', '/publishings');
    expect(body).toMatchObject({
      items: [
        { planId, publishedBy: 'ines' },
        { planId: before.id, publishedBy: 'ines' },
      ],
    });
    const after = await publishedPlan();
    const moved = after.tasks.find(({ id, start }) => {
      const old = before.tasks.find((one) => one.id === id);
      return old !== undefined && old.start.at !== start.at;
    });
    expect(moved).toBeDefined();
    const history = (await ask('GET', `/tasks/${moved?.id ?? ''}/history`, undefined, builder))
      .body;
    expect(history).toMatchObject({
      planned: { planId: before.id },
      replanned: [{ planId, start: moved?.start }],
      actual: { startedAt: null, finishedAt: null, spans: [] },
    });
    const state = await api.rest('POST', at(`/candidates/${planId}/discard`), { token: foreman });
    expect(state).toMatchObject({ status: 409, body: { code: 'candidate.state' } });
  });

  it('that moves nothing of the plan brings none', async () => {
    const before = await candidates();
    await ask('POST', '/readings', {
      readings: [{ space: 'bay', at: `${today}T00:00:00Z`, celsius: 20 }],
    });
    await until(async () => {
      const last = await database.owner.planRun.findFirst({
        where: { yardId, purpose: 'disturbance' },
        orderBy: { createdAt: 'desc' },
      });
      return JSON.stringify(last?.cause).includes('a new reading') && last?.status === 'finished';
    }, 40_000);
    await settled(database, yardId);
    expect(await candidates()).toEqual(before);
  });

  it('that a candidate does not know keeps it from being published', async () => {
    const before = await candidates();
    const task = await lastFreeTask();
    const claim = (await ask('POST', `/tasks/${task.id}/claims`, {}, builder)).body;
    await ask('POST', `/claims/${z.string().parse(claim.id)}/start`, {}, builder);
    const candidate = await newCandidate(before);
    expect(candidate.cause.join()).toContain(`"${task.name}"`);
    expect(candidate.cause.join()).toMatch(/began .* earlier than planned/);
    await stopSearching();
    // Done and running work stays where it was.
    const plan = planSchema.parse((await ask('GET', `/plans/${candidate.planId}`)).body);
    expect(plan.tasks.find(({ id }) => id === task.id)).toMatchObject({ state: 'working' });

    const stopped = await ask('POST', `/claims/${z.string().parse(claim.id)}/finish`, {}, builder);
    expect(stopped.status).toBe(200);
    const refused = await publish(candidate.planId);
    expect(refused).toMatchObject({ status: 409, body: { code: 'candidate.state' } });
    await stopSearching();
  });

  it('that the foreman fixes makes another candidate, and one that is discarded is gone', async () => {
    const before = await candidates();
    const { tasks } = await publishedPlan();
    const waiting = await waitingTasks();
    const task = tasks.filter(({ id, air }) => waiting.has(id) && air === 'wet').at(-1);
    const fixedStart = `${addDays(today, 20)}T09:00:00.000Z`;
    await change(`/tasks/${task?.id ?? ''}`, { fixedStart });
    const candidate = await newCandidate(before);
    expect(candidate.cause.join()).toContain('was set to begin');
    const plan = planSchema.parse((await ask('GET', `/plans/${candidate.planId}`)).body);
    expect(plan.tasks.find(({ id }) => id === task?.id)?.start.at).toBe(fixedStart);
    const { body } = await ask('POST', `/candidates/${candidate.planId}/discard`);
    expect(body).toMatchObject({ state: 'discarded', decidedBy: 'ines' });
    await settled(database, yardId);
    expect((await candidates()).filter(({ state }) => state === 'open')).toEqual([]);
    expect((await publishedPlan()).tasks.length).toBe(tasks.length);
  });

  it('is published by itself where the yard allows so many moves, and a passed start does not bind', async () => {
    await change('/live-settings', { publishMovesUpTo: 1000 });
    const before = await publishedPlan();
    const waiting = await waitingTasks();
    const [{ id }] = before.tasks.filter((task) => waiting.has(task.id)).slice(-1);
    await database.owner.task.update({
      where: { yardId_id: { yardId, id } },
      data: { fixedStartAt: new Date(Date.now() - 3_600_000) },
    });
    // As if it had been fixed in time, and the hour had gone by.
    await database.owner.event.create({
      data: { yardId, kind: 'task-fixed', subject: 'task', subjectId: id, byMemberId: 'ines' },
    });
    await change('/people/bram', { exceptions: daysOff(0, 3) });
    await until(async () => (await publishedPlan()).id !== before.id, 50_000);
    const after = await publishedPlan();
    const { body } = await ask('GET', `/candidates/${after.id}`);
    const { cause, state, decidedBy } = candidateSchema.parse(body);
    expect({ state, decidedBy }).toEqual({ state: 'published', decidedBy: null });
    expect(cause.join(' ')).toContain('which has passed: it is planned as soon as it can be.');
    const history = (await ask('GET', '/publishings?first=1')).body;
    expect(history).toMatchObject({ items: [{ planId: after.id, publishedBy: null }] });
    await change('/live-settings', { publishMovesUpTo: null });
    await settled(database, yardId);
  });
});
