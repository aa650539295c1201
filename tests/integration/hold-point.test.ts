import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { toLocal } from '#calendar/local-time.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { type Answer, testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { planted } from '../support/planted.ts';
import { twoBoats } from '../support/two-boats.ts';

/** Work that waits for an outsider's word: nobody's hours, but somebody is told and says so. */
const database = testDatabase();
const api = testApi(database);
const today = toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date;
const daysAgo = (days: number): string =>
  new Date((Math.floor(Date.now() / 86_400_000) - days) * 86_400_000).toISOString();
let token = '';

/** The first boat's panel is looked at by a surveyor, expected three days ago, before it is faired. */
function surveyed(): YardInput {
  const yard = twoBoats(today);
  const [panel] = yard.procedures ?? [];
  const look = {
    id: 'look',
    name: 'look',
    effort: { source: 'nobody works' },
    skill: null,
    crewMin: 0,
    crewMax: 0,
    air: 'clean' as const,
    splittable: false,
  };
  const words = [{ step: 'look', expected: daysAgo(3) }];
  const then = { opens: { kind: 'after' as const, minutes: 0 } };
  return {
    ...yard,
    procedures: [
      panel,
      {
        ...panel,
        id: 'surveyed',
        steps: [...panel.steps, look],
        links: [
          ...panel.links,
          { id: 'seen', from: 'lay-up', to: 'look', ...then },
          { id: 'then', from: 'look', to: 'fair', ...then },
        ],
      },
    ],
    boats: (yard.boats ?? []).slice(0, 1).map((boat) => ({
      ...boat,
      refits: boat.refits?.map((refit) => ({
        ...refit,
        parts: refit.parts?.map((part) => ({
          ...part,
          jobs: [{ id: 'panel', procedure: 'surveyed', words }],
        })),
      })),
    })),
  };
}

const call = (method: string, path: string, body?: object): Promise<Answer> =>
  api.rest(method, `/yards/small/${path}`, { token, ...(body === undefined ? {} : { body }) });

const listSchema = z.array(z.looseObject({ taskId: z.string(), skill: z.string().nullable() }));
const readyOf = async (): Promise<[string, string | null][]> =>
  listSchema
    .parse((await call('GET', 'ready?whose=all')).body.ready)
    .map(({ taskId, skill }) => [taskId, skill]);

beforeAll(async () => {
  await api.addAccount('ines@yard.test');
  token = await api.signIn('ines@yard.test');
  const made = await api.rest('POST', '/yards', { token, body: surveyed() });
  if (made.status !== 201) throw new Error(JSON.stringify(made.body));
});

describe('a hold point', () => {
  test('is ready when the work before it is done, for whoever is told the word', async () => {
    expect(await readyOf()).toEqual([['panel.lay-up', 'laminating']]);
    await database.owner.task.update({
      where: { yardId_id: { yardId: 'small', id: 'panel.lay-up' } },
      data: {
        state: 'done',
        startedAt: new Date(daysAgo(5)),
        finishedAt: new Date(Date.parse(daysAgo(5)) + 3_600_000),
      },
    });
    await planted(database, 'small');
    expect(await readyOf()).toEqual([['panel.look', null]]);
  });

  test('takes nobody: who claims it may be at work elsewhere, and does not count as its crew', async () => {
    const claim = await call('POST', 'tasks/panel.look/claims', {});
    expect(claim).toMatchObject({ status: 201, body: { holder: { id: 'ines' } } });
    const id = z.string().parse(claim.body.id);
    expect((await call('POST', `claims/${id}/start`, {})).status).toBe(200);
    expect((await call('POST', `claims/${id}/finish`, {})).status).toBe(200);
    const task = await database.owner.task.findUniqueOrThrow({
      where: { yardId_id: { yardId: 'small', id: 'panel.look' } },
      include: { crew: true },
    });
    expect(task).toMatchObject({ state: 'done', crew: [] });
    expect(await readyOf()).toEqual([['panel.fair', 'fairing']]);
  });
});
