import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addDays } from '#calendar/local-date.ts';
import { inYard, service } from '#persistence/client.ts';
import { loadPlan } from '#persistence/plan/store.ts';
import { check } from '#scheduling/checker/check.ts';
import { testApi } from '#tests/support/api.ts';
import { testDatabase } from '#tests/support/database.ts';
import { largeYard } from '#tests/support/large-yard.ts';
import { makeYard, runOf, runsOf } from '#tests/support/plan-runs.ts';
import { type Process, startApiProcess, startWorkerProcess } from '#tests/support/processes.ts';
import { smallYard } from '#tests/support/small-yard.ts';
import { collected, serverSent, subscriber } from '#tests/support/streams.ts';
import { twoBoats } from '#tests/support/two-boats.ts';

const database = testDatabase();
const api = testApi(database);
const token = { ines: '', bram: '', odile: '', omar: '' };
const small = runsOf(api, 'small', () => token.ines);
const large = runsOf(api, 'large', () => token.ines);
const processes: Process[] = [];
/** A second api process: what the worker does must reach its followers too. */
let elsewhere = '';

beforeAll(async () => {
  for (const who of ['ines', 'bram', 'odile', 'omar'] as const) {
    await api.addAccount(`${who}@yard.test`);
    token[who] = await api.signIn(`${who}@yard.test`);
  }
  const otherApi = await startApiProcess(database.serviceUrl);
  elsewhere = otherApi.url;
  processes.push(otherApi, await startWorkerProcess(database.serviceUrl));
  await makeYard(api, smallYard('small'), token.ines);
  await makeYard(api, largeYard('large'), token.ines);
}, 120_000);
afterAll(async () => {
  // Nest ends itself by the signal that it closed down for.
  const ends = await Promise.all(processes.map((process) => process.end('SIGTERM')));
  expect(ends).toEqual(['SIGTERM', 0]);
});

describe('a plan run', () => {
  it('is answered at once, told to its followers, and becomes a plan that the checker accepts', async () => {
    const sending = {
      token: token.ines,
      body: { iterations: 500, seed: 3, notBefore: '2026-11-30T07:00:00Z' },
      headers: { 'idempotency-key': crypto.randomUUID() },
    };
    const begun = await api.rest('POST', '/yards/small/plan-runs', sending);
    expect(begun.status).toBe(202);
    expect(begun.body).toMatchObject({ status: 'queued', requestedBy: 'ines', attempts: 0 });
    const again = await api.rest('POST', '/yards/small/plan-runs', sending);
    const { id } = runOf(begun);
    expect(runOf(again).id).toBe(id);

    const told = await small.follow(id);
    const ids = told.map((event) => Number(event.id));
    expect(ids).toEqual([...ids].sort((a, b) => a - b));
    const last = told.at(-1);
    expect(told.filter(({ event }) => event === 'end')).toEqual([last]);
    expect(last?.data).toMatchObject({ status: 'finished', gap: 0, error: null });

    const run = await small.get(id);
    expect(run).toMatchObject({ status: 'finished', attempts: 1, planId: last?.data.planId });
    const stored = await inYard(database.service, service('small'), (tx) =>
      loadPlan(tx, 'small', run.planId ?? ''),
    );
    expect(stored.runId).toBe(id);
    expect(stored.result.plan && check(stored.problem, stored.result.plan)).toEqual([]);
  });

  it('is followed from where a follower left, and over when it is over', async () => {
    const { id } = await small.start({ iterations: 500 });
    const told = await small.follow(id);
    const [first] = told;
    expect(await small.follow(id, first.id)).toEqual(told.slice(1));
    expect(await small.follow(id, told.at(-1)?.id)).toEqual([]);
    // From before its time: from its own beginning, which is that it was asked for.
    const [queued] = await small.follow(id, '0');
    expect(queued.data).toMatchObject({ status: 'queued' });
  });

  it('is followed by subscription, at another api process than it was started at', async () => {
    const client = subscriber(elsewhere, token.ines);
    const { id } = await small.start({ iterations: 500 });
    const query = `subscription ($id: ID!) {
      planRun(yardId: "small", id: $id) { eventId status bestFinish boundFinishes gap planId }
    }`;
    const told = await collected(client.iterate({ query, variables: { id } }));
    await client.dispose();
    const statuses = told.map(({ data }) => (data?.planRun as { status: string }).status);
    expect(statuses.at(-1)).toBe('FINISHED');
    expect(statuses.slice(0, -1).every((one) => ['QUEUED', 'RUNNING'].includes(one))).toBe(true);
    const { planId } = await small.get(id);
    expect(told.at(-1)?.data?.planRun).toMatchObject({
      planId,
      bestFinish: expect.stringMatching(/^2026-12-/) as string,
    });
  });

  it('is started, read and stopped by GraphQL too', async () => {
    const { body } = await api.graphql(
      `mutation { startPlanRun(yardId: "large", input: { seconds: 60 }) { id status seconds } }`,
      {},
      { token: token.ines },
    );
    expect(body).toMatchObject({ data: { startPlanRun: { status: 'QUEUED', seconds: 60 } } });
    const { id } = (body.data as { startPlanRun: { id: string } }).startPlanRun;
    const stopped = await api.graphql(
      `mutation ($id: ID!) { stopPlanRun(yardId: "large", id: $id) { id stopRequested } }`,
      { id },
      { token: token.ines },
    );
    expect(stopped.body).toMatchObject({ data: { stopPlanRun: { id, stopRequested: true } } });
    expect((await large.follow(id)).at(-1)?.data.status).toBe('stopped');
    const list = await api.graphql(
      `{ planRuns(yardId: "large", first: 1) { items { id status } nextCursor } }`,
      {},
      { token: token.ines },
    );
    expect(list.body).toMatchObject({
      data: { planRuns: { items: [{ id, status: 'STOPPED' }], nextCursor: null } },
    });
  });

  it('is stopped in mid-run with the plan so far, and a waiting one at once', async () => {
    const running = await large.start({ seconds: 60 });
    const waiting = await large.start({ seconds: 60 });
    for await (const { data } of serverSent(large.events(running.id), { token: token.ines })) {
      if (data.bestFinish !== null) break;
    }
    expect(runOf(await large.stop(waiting.id))).toMatchObject({ status: 'stopped', planId: null });
    const asked = performance.now();
    const stop = await large.stop(running.id);
    expect(stop.status).toBe(202);
    const end = (await large.follow(running.id)).at(-1);
    // Within a second when the machine is quiet; the rest is what a loaded one may take.
    expect(performance.now() - asked).toBeLessThan(15_000);
    expect(end?.data).toMatchObject({ status: 'stopped', stopRequested: true });
    const run = await large.get(running.id);
    const plan = await api.rest('GET', `/yards/large/plans/${run.planId ?? ''}`, {
      token: token.ines,
    });
    expect(plan.body).toMatchObject({ runId: running.id, timeZone: 'Europe/London' });
    expect(plan.body.tasks).toHaveLength(28);
    expect((await large.stop(running.id)).body).toMatchObject({ status: 409, code: 'run.state' });
    expect((await large.get(waiting.id)).attempts).toBe(0);
  });

  it('says in the yard’s words why there is no plan', async () => {
    await makeYard(api, { ...smallYard('short'), horizonDays: 1 }, token.ines);
    const short = runsOf(api, 'short', () => token.ines);
    const { id } = await short.start({ iterations: 500 });
    expect((await short.follow(id)).at(-1)?.data).toMatchObject({ status: 'infeasible' });
    const { why, planId, status } = await short.get(id);
    expect([status, planId]).toEqual(['infeasible', null]);
    expect(why.join('\n')).toMatch(/^No plan exists.*\n.*fair \(Fore hatch\)/);
  });

  it('fails with the faults of a yard that cannot be planned', async () => {
    const yard = smallYard('unskilled');
    const people = (yard.people ?? []).map((person) => ({
      ...person,
      abilities: (person.abilities ?? []).filter(({ skill }) => skill !== 'fairing'),
    }));
    await makeYard(api, { ...yard, people }, token.ines);
    const unskilled = runsOf(api, 'unskilled', () => token.ines);
    const { id } = await unskilled.start({ iterations: 500 });
    await unskilled.follow(id);
    const run = await unskilled.get(id);
    expect(run).toMatchObject({ status: 'failed', planId: null });
    expect(run.error).toContain('needs Fairing, which no builder has');
    expect(run.faults).toMatchObject([{ code: 'yard.skill', path: 'procedures[0].steps[1]' }]);
  });

  it('refuses limits that are none, and ids that are none', async () => {
    for (const wrong of [{ seconds: 0 }, { iterations: 1.5 }, { seed: -1 }, { minutes: 3 }]) {
      const refused = await api.rest('POST', '/yards/small/plan-runs', {
        token: token.ines,
        body: wrong,
      });
      expect(refused).toMatchObject({ status: 422, body: { code: 'input.field' } });
    }
    const cursor = await api.rest('GET', '/yards/small/plan-runs?after=zz', { token: token.ines });
    expect(cursor).toMatchObject({ status: 422, body: { errors: [{ path: 'after' }] } });
    for (const id of ['no-such', crypto.randomUUID()]) {
      for (const [method, path] of [
        ['GET', id],
        ['POST', `${id}/stop`],
        ['GET', `${id}/events`],
      ]) {
        const missing = await api.rest(method, `/yards/small/plan-runs/${path}`, {
          token: token.ines,
        });
        expect(missing).toMatchObject({ status: 404, body: { code: 'record.missing' } });
      }
    }
  });

  it('plans nothing into the past, unless the yard’s time is another', async () => {
    const today = new Date().toISOString().slice(0, 10);
    const starts: (string | null)[] = [];
    for (const [id, day] of [
      ['current', today],
      ['coming', addDays(today, 60)],
    ]) {
      await makeYard(api, { ...twoBoats(day), id }, token.ines);
      const asked = { token: token.ines, body: { iterations: 1 } };
      const { body } = await api.rest('POST', `/yards/${id}/plan-runs`, asked);
      starts.push(body.notBefore as string | null);
    }
    const [current, coming] = starts;
    expect(coming).toBeNull();
    expect(Math.abs(Date.parse(current ?? '') - Date.now())).toBeLessThan(120_000);
  });

  it('is the foreman’s, and of this yard', async () => {
    const { id } = await small.start({ iterations: 10 });
    for (const who of [token.bram, token.odile]) {
      const start = { token: who, body: {} };
      expect((await api.rest('POST', '/yards/small/plan-runs', start)).status).toBe(403);
      expect((await api.rest('GET', '/yards/small/plan-runs', { token: who })).status).toBe(403);
      const follow = await api.rest('GET', `/yards/small/plan-runs/${id}/events`, { token: who });
      expect(follow.status).toBe(403);
    }
    await makeYard(api, smallYard('other', 'Other yard'), token.ines);
    const stranger = { token: token.omar };
    for (const path of [`small/plan-runs/${id}`, `small/plan-runs/${id}/events`, 'small/events']) {
      expect((await api.rest('GET', `/yards/${path}`, stranger)).status).toBe(404);
    }
    const elsewhereInVain = await api.rest('GET', `/yards/other/plan-runs/${id}`, {
      token: token.ines,
    });
    expect(elsewhereInVain.status).toBe(404);
    await small.follow(id);
  });

  it('is listed newest first, page by page', async () => {
    const all: string[] = [];
    let after = '';
    do {
      const { body } = await api.rest(
        'GET',
        `/yards/small/plan-runs?first=2${after === '' ? '' : `&after=${after}`}`,
        { token: token.ines },
      );
      const { items, nextCursor } = body as {
        items: { id: string; createdAt: string }[];
        nextCursor: string | null;
      };
      all.push(...items.map(({ createdAt, id }) => `${createdAt} ${id}`));
      after = nextCursor ?? '';
    } while (after !== '');
    expect(all.length).toBeGreaterThanOrEqual(4);
    expect(all).toEqual([...all].sort().reverse());
    expect(new Set(all).size).toBe(all.length);
  });
});
