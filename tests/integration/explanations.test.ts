import { beforeAll, describe, expect, test } from 'vitest';
import { inYard, service } from '#persistence/client.ts';
import { loadPlan, savePlan } from '#persistence/plan/store.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import { publishPlan } from '../support/published-plan.ts';
import { smallYardApi } from '../support/small-yard-api.ts';

/** Plans explained and checked from what is stored with them, whatever became of the yard since. */
const { api, database, tokens } = smallYardApi();
const actor = service('small');
let planId = '';

const read = (path: string, token = tokens.foreman) =>
  api.rest('GET', `/yards/small/plans/${path}`, { token });
const why = (path: string, token = tokens.foreman) => read(`${planId}/tasks/${path}`, token);

beforeAll(async () => {
  await publishPlan(database, 'small');
  const published = await database.owner.publishedPlan.findUniqueOrThrow({
    where: { yardId: 'small' },
  });
  planId = published.planId;
});

describe('why not earlier', () => {
  test('names the task, the row of the yard and the moment, in words too', async () => {
    const { status, body } = await why('hatch-panel.fair/why-not-earlier?at=2026-11-30T12:00:00Z');
    expect(status).toBe(200);
    const steps = body.steps as { fromTask: string; row: { kind: string }; text: string }[];
    expect(steps.map(({ fromTask, row }) => [fromTask, row.kind])).toContainEqual([
      'hatch-panel.lay-up',
      'link',
    ]);
    expect(steps.map(({ text }) => text).join()).toContain('sandable');
    expect(body).toMatchObject({ planId, taskId: 'hatch-panel.fair' });
  });

  test('of a moment of one’s own', async () => {
    const { body } = await why('hatch-panel.lay-up/why-not-earlier?at=2026-11-29T07:00:00Z');
    expect(body).toMatchObject({ asked: { local: '2026-11-29T07:00' } });
    expect((body.steps as unknown[]).length).toBeGreaterThan(0);
    expect((await why('hatch-panel.lay-up/why-not-earlier?at=noon')).status).toBe(422);
    expect((await why('nothing/why-not-earlier')).status).toBe(404);
  });

  test('is a builder’s to ask of the published plan, and no owner’s', async () => {
    expect((await why('hatch-panel.fair/why-not-earlier', tokens.builder)).status).toBe(200);
    expect((await why('hatch-panel.fair/why-not-earlier', tokens.owner)).status).toBe(403);
    const { body } = await api.graphql(
      `{ whyNotEarlier(yardId: "small", taskId: "hatch-panel.fair", input: {}) {
           planId steps { text row { kind } } } }`,
      {},
      { token: tokens.builder },
    );
    expect(body).toMatchObject({ data: { whyNotEarlier: { planId } } });
  });

  test('stays what it was when the yard changes', async () => {
    const before = (await why('hatch-panel.fair/why-not-earlier')).body;
    await database.owner.part.updateMany({ where: { yardId: 'small' }, data: { name: 'Renamed' } });
    await database.owner.weeklyShift.deleteMany({ where: { yardId: 'small' } });
    await database.owner.taskLink.deleteMany({ where: { yardId: 'small' } });
    expect((await why('hatch-panel.fair/why-not-earlier')).body).toEqual(before);
  });
});

describe('what shortens', () => {
  test('ranks what holds the boats up by what is gained without it', async () => {
    const { status, body } = await read(`${planId}/what-shortens`);
    expect(status).toBe(200);
    const found = body.shortenings as {
      row: { kind: string };
      text: string;
      refits: { earlierMinutes: number }[];
    }[];
    expect(found.length).toBeGreaterThan(0);
    for (const { refits, text, row } of found) {
      expect(refits.some(({ earlierMinutes }) => earlierMinutes > 0)).toBe(true);
      expect(text).toMatch(/^(If|With|Without) .+: .+ earlier for /);
      expect(row.kind).not.toBe('');
    }
  });

  test('of one refit, the same through GraphQL, and only for the foreman', async () => {
    const missing = await read(`${planId}/what-shortens?refit=nothing`);
    expect(missing.status).toBe(404);
    expect(JSON.stringify(missing.body)).toContain('use one of');
    expect((await read(`${planId}/what-shortens`, tokens.builder)).status).toBe(403);
    const { body } = await api.graphql(
      `{ whatShortens(yardId: "small", input: {}) {
           planId shortenings { text easing row { kind } refits { refit earlierMinutes } } } }`,
      {},
      { token: tokens.foreman },
    );
    const { shortenings } = (await read(`${planId}/what-shortens`)).body;
    expect(body).toMatchObject({ data: { whatShortens: { planId } } });
    const graph = (body as { data: { whatShortens: { shortenings: { text: string }[] } } }).data;
    expect(graph.whatShortens.shortenings.map(({ text }) => text)).toEqual(
      (shortenings as { text: string }[]).map(({ text }) => text),
    );
  });
});

describe('the check', () => {
  test('finds nothing wrong with a plan of the engine', async () => {
    const { status, body } = await read(`${planId}/check`);
    expect(status).toBe(200);
    expect(body).toMatchObject({ planId, problemVersion: 2, violations: [] });
    expect((await read(`${planId}/check`, tokens.builder)).status).toBe(403);
  });

  test('names what a wrong one breaks, by task and row', async () => {
    const wrongId = await inYard(database.service, actor, async (tx) => {
      const { problem, map, result, engineVersion } = await loadPlan(tx, 'small', planId);
      const { sheet } = await tx.plan.findFirstOrThrow({ where: { yardId: 'small', id: planId } });
      const run = await tx.planRun.create({ data: { yardId: 'small' } });
      const { plan } = result;
      if (plan === null) throw new Error('the plan came back without placements');
      const early = anHourEarlier(plan, map.tasks.indexOf('hatch-panel.fair'));
      return savePlan(tx, {
        yardId: 'small',
        runId: run.id,
        problem,
        map,
        result: { ...result, plan: early },
        sheet: sheet as never,
        engineVersion,
      });
    });
    const { body } = await read(`${wrongId}/check`);
    expect(body.violations).toContainEqual({
      kind: 'shift',
      message: expect.stringContaining('bram') as string,
      taskIds: ['hatch-panel.fair'],
      row: { kind: 'calendar', id: 'bram', name: 'Bram', path: 'people[1].shifts' },
    });
  });
});

function anHourEarlier(plan: Plan, activity: number): Plan {
  const hour = 60;
  return {
    ...plan,
    placements: plan.placements.map((placed) =>
      placed.activity === activity
        ? {
            ...placed,
            start: placed.start - hour,
            finish: placed.finish - hour,
            segments: placed.segments.map(({ start, end }) => ({
              start: start - hour,
              end: end - hour,
            })),
          }
        : placed,
    ),
  };
}
