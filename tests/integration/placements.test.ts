import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { addDays } from '#calendar/local-date.ts';
import { publishPlan } from '../support/published-plan.ts';
import { comingDay, comingMonday, comingYardApi } from '../support/coming-yard.ts';

/** A task of a plan, and the same task tried elsewhere: nothing of it is kept. */
const { api, database, tokens } = comingYardApi();
let planId = '';

const path = (rest: string): string => `/yards/small/plans/${planId}/tasks/${rest}`;
const attempt = (body: object, token = tokens.foreman, task = 'hatch-panel.fair') =>
  api.rest('POST', path(`${task}/placements`), { token, body });

beforeAll(async () => {
  await publishPlan(database, 'small');
  const published = await database.owner.publishedPlan.findUniqueOrThrow({
    where: { yardId: 'small' },
  });
  planId = published.planId;
});

const triedSchema = z.object({
  isPossible: z.boolean(),
  start: z.object({ at: z.string(), local: z.string() }),
  against: z.array(z.object({ words: z.string(), taskIds: z.array(z.string()) })),
});

describe('a task of a plan', () => {
  test('is read alone, by the crew, with what a plan cannot know', async () => {
    const { status, body } = await api.rest('GET', path('hatch-panel.lay-up'), {
      token: tokens.builder,
    });
    expect(status).toBe(200);
    expect(body).toMatchObject({
      planId,
      publishedAt: expect.any(String) as string,
      task: { id: 'hatch-panel.lay-up', space: 'Bench bay', crew: [{ name: 'Bram' }] },
    });
    expect(String(body.caution)).not.toBe('');
    const { body: graph } = await api.graphql(
      `{ taskOfPlan(yardId: "small", planId: "${planId}", taskId: "hatch-panel.lay-up") {
           planId caution task { id film { words } } } }`,
      {},
      { token: tokens.builder },
    );
    expect(graph).toMatchObject({
      data: { taskOfPlan: { planId, caution: body.caution, task: { id: 'hatch-panel.lay-up' } } },
    });
  });

  test('is none of the owner’s, nor one that the plan does not have', async () => {
    const of = (task: string, token: string) => api.rest('GET', path(task), { token });
    expect((await of('hatch-panel.lay-up', tokens.owner)).status).toBe(403);
    expect((await of('nothing', tokens.foreman)).status).toBe(404);
    expect((await of('hatch-panel.lay-up', tokens.stranger)).status).toBe(404);
  });
});

describe('a task tried elsewhere', () => {
  test('is told what is against it, and nothing is kept', async () => {
    const before = (await api.rest('GET', path('hatch-panel.fair'), { token: tokens.foreman }))
      .body;
    const { status, body } = await attempt({ start: comingDay(0, '11:00') });
    expect(status).toBe(200);
    const tried = triedSchema.parse(body);
    expect(tried.isPossible).toBe(false);
    const sanding = tried.against.find(({ words }) => words.includes('sandable'));
    expect(sanding?.taskIds).toEqual(['hatch-panel.lay-up']);
    expect(
      (await api.rest('GET', path('hatch-panel.fair'), { token: tokens.foreman })).body,
    ).toEqual(before);
    const task = await api.rest('GET', '/yards/small/tasks/hatch-panel.fair', {
      token: tokens.foreman,
    });
    expect(task.body).toMatchObject({ fixedStart: null, crew: [] });
  });

  test('fits later, when its people are back at work', async () => {
    // A Sunday at noon: Bram works again on Monday at seven.
    const { body } = await attempt({ start: comingDay(6, '12:00'), crew: ['bram'] });
    expect(body).toMatchObject({
      isPossible: true,
      start: { local: `${addDays(comingMonday, 7)}T07:00` },
      crew: [{ personId: 'bram', name: 'Bram' }],
      against: [],
      next: null,
    });
  });

  test('is refused in words where the question makes no sense', async () => {
    const wrong = await attempt({ crew: ['bram', 'odile'] });
    expect(wrong.status).toBe(422);
    expect(wrong.body).toMatchObject({ errors: [{ path: 'crew[1]' }] });
    expect((await attempt({ start: 'tomorrow' })).status).toBe(422);
    expect((await attempt({}, tokens.foreman, 'nothing')).status).toBe(404);
    const elsewhere = await api.rest(
      'POST',
      '/yards/small/plans/none/tasks/hatch-panel.fair/placements',
      { token: tokens.foreman, body: {} },
    );
    expect(elsewhere.status).toBe(404);
  });

  test('is the foreman’s to ask, through GraphQL too', async () => {
    expect((await attempt({}, tokens.builder)).status).toBe(403);
    expect((await attempt({}, tokens.owner)).status).toBe(403);
    expect((await attempt({}, tokens.stranger)).status).toBe(404);
    const { body } = await api.graphql(
      `{ tryPlacement(yardId: "small", planId: "${planId}", taskId: "hatch-panel.fair",
           input: { start: "${comingDay(0, '11:00')}" }) { isPossible against { words row { kind } } } }`,
      {},
      { token: tokens.foreman },
    );
    expect(body).toMatchObject({ data: { tryPlacement: { isPossible: false } } });
  });

  test('stays where it is once it has begun', async () => {
    const claim = await api.rest('POST', '/yards/small/tasks/hatch-panel.lay-up/claims', {
      token: tokens.builder,
      body: {},
    });
    expect(claim.status).toBe(201);
    const begun = await api.rest('POST', `/yards/small/claims/${String(claim.body.id)}/start`, {
      token: tokens.foreman,
      body: { override: { reason: 'The resin would not keep.' } },
    });
    expect(begun.status).toBe(200);
    const { body } = await attempt({}, tokens.foreman, 'hatch-panel.lay-up');
    expect(body).toMatchObject({ isPossible: false, against: [{ reason: 'begun', row: null }] });
  });
});
