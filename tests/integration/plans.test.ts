import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { withClient } from '#persistence/roles.ts';
import { testApi } from '#tests/support/api.ts';
import { testDatabase } from '#tests/support/database.ts';
import { makeYard, runsOf } from '#tests/support/plan-runs.ts';
import { type Process, startWorkerProcess } from '#tests/support/processes.ts';
import { smallYard } from '#tests/support/small-yard.ts';
import { type ServerSent, serverSent, subscriber } from '#tests/support/streams.ts';

const database = testDatabase();
const api = testApi(database);
const token = { ines: '', bram: '', odile: '', omar: '' };
let worker: Process | undefined;
/** Two plans of the yard, the older first. */
let plans: string[] = [];

const read = async (path: string, by: string) =>
  (await api.rest('GET', `/yards/small/${path}`, { token: by })).body;
const status = async (path: string, by: string) =>
  (await api.rest('GET', `/yards/small/${path}`, { token: by })).status;
const publish = (id: string, by: string) =>
  api.rest('POST', `/yards/small/plans/${id}/publish`, { token: by });

beforeAll(async () => {
  for (const who of ['ines', 'bram', 'odile', 'omar'] as const) {
    await api.addAccount(`${who}@yard.test`);
    token[who] = await api.signIn(`${who}@yard.test`);
  }
  worker = await startWorkerProcess(database.serviceUrl);
  await makeYard(api, smallYard('small'), token.ines);
  const runs = runsOf(api, 'small', () => token.ines);
  for (const seed of [1, 2]) {
    const { id } = await runs.start({ iterations: 100, seed });
    await runs.follow(id);
    plans = [...plans, (await runs.get(id)).planId ?? ''];
  }
}, 120_000);
afterAll(() => worker?.end('SIGTERM'));

describe('a plan', () => {
  it('is read with its boats, tasks, cure windows and bounds', async () => {
    const plan = await read(`plans/${plans[0]}`, token.ines);
    expect(plan).toMatchObject({
      id: plans[0],
      publishedAt: null,
      status: 'optimal',
      yard: 'Small yard',
      ranks: [
        { rank: 'promises', value: 0, distance: 0 },
        { rank: 'finishes', distance: 0 },
        { rank: 'money', value: 0 },
        { rank: 'disturbance', value: 0 },
      ],
      boats: [{ boat: 'Petrel', promised: { local: '2026-12-18T16:00' }, lateMinutes: 0 }],
      tasks: [
        { id: 'hatch-panel.lay-up', crew: [{ name: 'Bram' }], windows: [{ kind: 'sand' }] },
        { id: 'hatch-panel.fair', space: 'Bench bay' },
      ],
    });
    // Sandable 2,400 min at 10 °C and 900 min at 25 °C, in log(time) over 1/T (libs/cure): 20 °C.
    const [layUp] = plan.tasks as {
      finish: { at: string };
      windows: { opens: { at: string } }[];
    }[];
    const minutes = (Date.parse(layUp.windows[0].opens.at) - Date.parse(layUp.finish.at)) / 60_000;
    const inverse = (celsius: number) => 1 / (celsius + 273.15);
    const share = (inverse(20) - inverse(25)) / (inverse(10) - inverse(25));
    expect(minutes).toBeCloseTo(900 * (2400 / 900) ** share, -1);
  });

  it('is read by week, for each builder, space and boat', async () => {
    const week = await read(`plans/${plans[0]}/week`, token.ines);
    expect(week).toMatchObject({
      by: 'builder',
      weekStart: '2026-11-30',
      weekEnd: '2026-12-06',
      groups: [{ id: 'bram', rows: [{ from: '07:00', part: 'Fore hatch' }, { task: 'fair' }] }],
    });
    const bySpace = await read(`plans/${plans[0]}/week?by=space&from=2026-12-01`, token.ines);
    expect(bySpace).toMatchObject({ groups: [{ id: 'bay', rows: [{ task: 'fair' }] }] });
    expect(await read(`plans/${plans[0]}/week?by=boat&from=2027-03-01`, token.ines)).toMatchObject({
      weekStart: '2027-03-01',
      groups: [],
    });
    expect(await status(`plans/${plans[0]}/week?by=moon`, token.ines)).toBe(422);
    expect(await status(`plans/${plans[0]}/week?from=1.3.2027`, token.ines)).toBe(422);
  });

  it('has its binding chains in words', async () => {
    const { boats } = await read(`plans/${plans[0]}/chains`, token.ines);
    const [{ chain }] = boats as { chain: { reason: string; text: string }[] }[];
    expect(chain.map(({ reason }) => reason)).toEqual(['horizon', 'lag:sand', 'calendar']);
    expect(chain[1].text).toContain('waits for lay-up (Fore hatch) to be sandable');
  });

  it('is in the list, newest first', async () => {
    const { items } = await read('plans', token.ines);
    expect(items).toMatchObject([
      { id: plans[1], refits: [{ refitId: 'petrel-winter' }] },
      { id: plans[0], publishedAt: null },
    ]);
  });

  it('is a draft of the foreman’s until it is published, and never another yard’s', async () => {
    expect(await status('published-plan', token.bram)).toBe(404);
    expect(await status(`plans/${plans[0]}`, token.bram)).toBe(403);
    expect(await status(`plans/${plans[0]}/week`, token.bram)).toBe(403);
    expect(await status('plans', token.bram)).toBe(403);
    expect((await publish(plans[0], token.bram)).status).toBe(403);
    expect(await status(`plans/${plans[0]}`, token.odile)).toBe(403);
    expect(await status(`plans/${plans[0]}`, token.omar)).toBe(404);
    expect(await status('plans/not-a-plan', token.ines)).toBe(404);
    await makeYard(api, smallYard('other', 'Other yard'), token.ines);
    for (const path of [plans[0], `${plans[0]}/week`, `${plans[0]}/chains`]) {
      const { body } = await api.rest('GET', `/yards/other/plans/${path}`, { token: token.ines });
      expect(body).toMatchObject({ status: 404, code: 'record.missing' });
    }
    const stolen = await api.rest('POST', `/yards/other/plans/${plans[0]}/publish`, {
      token: token.ines,
    });
    expect(stolen.status).toBe(404);
  });
});

describe('publishing', () => {
  it('makes a plan the one that builders read, in place of the one before', async () => {
    const first = await publish(plans[0], token.ines);
    expect(first).toMatchObject({ status: 200, body: { planId: plans[0], publishedBy: 'ines' } });
    expect(first.headers.get('etag')).toBe('"1"');
    expect((await publish(plans[0], token.ines)).body).toEqual(first.body);
    expect(await read('published-plan', token.bram)).toMatchObject({ id: plans[0] });
    await publish(plans[1], token.ines);
    // Nor what it costs, from which a builder could tell what others earn.
    expect(await read('published-plan', token.bram)).toMatchObject({
      id: plans[1],
      money: null,
      ranks: [{ rank: 'promises' }, { rank: 'finishes' }, { rank: 'disturbance' }],
    });
    expect(await read('published-plan', token.ines)).toMatchObject({ money: { total: 0 } });
    expect(await read('published-plan/week', token.bram)).toMatchObject({ planId: plans[1] });
    expect(await read(`plans/${plans[1]}/chains`, token.bram)).toMatchObject({ planId: plans[1] });
    expect(await status(`plans/${plans[0]}`, token.bram)).toBe(403);
    expect(await status('published-plan', token.odile)).toBe(403);
    expect(await database.owner.publishedPlan.count({ where: { yardId: 'small' } })).toBe(1);
  });

  it('is done and read by GraphQL too', async () => {
    const sent = { token: token.ines };
    const done = await api.graphql(
      'mutation ($id: ID!) { publishPlan(yardId: "small", id: $id) { planId revision } }',
      { id: plans[0] },
      sent,
    );
    expect(done.body).toMatchObject({ data: { publishPlan: { planId: plans[0] } } });
    const { body } = await api.graphql(
      `query ($id: ID!) {
        plans(yardId: "small") { items { id publishedAt } }
        plan(yardId: "small", id: $id) { boats { boat finish { at local } chain { text } } }
        publishedPlan(yardId: "small") { id tasks { id windows { opens { local } closes { local } } } }
        planWeek(yardId: "small", input: { by: SPACE }) { by groups { name rows { date people } } }
        planChains(yardId: "small") { planId boats { refit } }
      }`,
      { id: plans[1] },
      sent,
    );
    expect(body).toMatchObject({
      data: {
        plans: { items: [{ id: plans[1], publishedAt: null }, { id: plans[0] }] },
        plan: { boats: [{ boat: 'Petrel', finish: { local: '2026-12-01T08:15' } }] },
        publishedPlan: { id: plans[0] },
        planWeek: { by: 'SPACE', groups: [{ name: 'Bench bay' }] },
        planChains: { planId: plans[0], boats: [{ refit: 'Winter refit' }] },
      },
    });
    const refused = await api.graphql(
      '{ publishedPlan(yardId: "small") { id } }',
      {},
      {
        token: token.odile,
      },
    );
    expect(refused.body).toMatchObject({ errors: [{ extensions: { code: 'access.role' } }] });
  });
});

describe('the events of a yard', () => {
  const url = () => `${api.url}/api/v1/yards/small/events`;

  /** What `by` is told from `lastEventId` on, up to an event of the kind. */
  async function until(kind: string, by: string, lastEventId: string): Promise<ServerSent[]> {
    const told: ServerSent[] = [];
    for await (const event of serverSent(url(), { token: by, lastEventId })) {
      told.push(event);
      if (event.event === kind) break;
    }
    return told;
  }

  it('are told from where a follower left: all to the foreman, no drafts to a builder', async () => {
    const all = await until('plan-published', token.ines, '0');
    expect(all.map(({ event }) => event)).toEqual(
      expect.arrayContaining(['yard-added', 'plan-run-queued', 'plan-run-ended']),
    );
    expect(all.at(-1)?.data).toMatchObject({ subjectId: plans[0], byMemberId: 'ines' });
    const some = await until('plan-published', token.bram, '0');
    const forBuilders = all.filter(
      ({ data }) => !['plan-run', 'person'].includes(String(data.subject)),
    );
    expect(some).toEqual(forBuilders);
    const middle = all[Math.floor(all.length / 2)];
    expect(await until('plan-published', token.ines, middle.id)).toEqual(
      all.slice(all.indexOf(middle) + 1),
    );
  });

  it('are of this yard, and not for owners', async () => {
    expect(await status('events', token.odile)).toBe(403);
    expect(await status('events', token.omar)).toBe(404);
    const nonsense = { token: token.ines, headers: { 'last-event-id': 'first' } };
    const refused = await api.rest('GET', '/yards/small/events', nonsense);
    expect(refused).toMatchObject({ status: 422, body: { code: 'input.field' } });
  });

  it('come by subscription too', async () => {
    const client = subscriber(api.url, token.bram);
    const query =
      'subscription { events(yardId: "small", after: "0") { kind byMemberId payload } }';
    for await (const { data } of client.iterate({ query })) {
      const payload = JSON.stringify({ tasks: 2 });
      expect(data).toEqual({ events: { kind: 'yard-added', byMemberId: 'ines', payload } });
      break;
    }
    await client.dispose();
  });

  it('are not missed while the connection to the database is away', async () => {
    const log = await database.owner.event.aggregate({ _max: { id: true } });
    const leave = new AbortController();
    const stream = serverSent(url(), {
      token: token.bram,
      lastEventId: String(log._max.id),
      signal: leave.signal,
    });
    const told: string[] = [];
    const reading = (async () => {
      for await (const { data } of stream) told.push(String(data.subjectId));
    })();
    const published = [plans[1], plans[0], plans[1]];
    await publish(published[0], token.ines);
    await expect.poll(() => told, { timeout: 10_000 }).toEqual(published.slice(0, 1));
    await withClient(database.adminUrl, (admin) =>
      admin.query(`SELECT pg_terminate_backend(pid) FROM pg_stat_activity
        WHERE application_name = 'curewright-events' AND datname = current_database()`),
    );
    for (const plan of published.slice(1)) await publish(plan, token.ines);
    await expect.poll(() => told, { timeout: 10_000 }).toEqual(published);
    leave.abort();
    await reading;
  });
});
