import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, test } from 'vitest';
import { inYard, service } from '#persistence/client.ts';
import { lockWork } from '#persistence/workload/store.ts';
import { faultsOf } from '../support/api.ts';
import { smallYardApi } from '../support/small-yard-api.ts';
import { smallYard } from '../support/small-yard.ts';

const { api, database, tokens } = smallYardApi();

describe('boats and their work', () => {
  const tasks = () =>
    database.owner.task.findMany({
      where: { yardId: 'small', partId: 'hatch' },
      orderBy: { position: 'asc' },
    });

  test('an imported part has its tasks, sized by it', async () => {
    expect((await tasks()).map(({ id, workMinutes }) => [id, workMinutes])).toEqual([
      ['hatch-panel.lay-up', 30 + 2 * 40],
      ['hatch-panel.fair', 15 + 2 * 30],
    ]);
  });

  test('a new size resizes what nobody has begun, by the version it was made from', async () => {
    const better = smallYard().procedures?.[0].steps.map((step) => ({
      ...step,
      effort: { fixed: 1000, source: 'invented' },
    }));
    const version = await api.rest('POST', '/yards/small/procedures/panel/versions', {
      token: tokens.foreman,
      body: { name: 'Slower', steps: better, links: smallYard().procedures?.[0].links },
    });
    expect(version).toMatchObject({ status: 201, body: { version: 2 } });
    await database.owner.task.update({
      where: { yardId_id: { yardId: 'small', id: 'hatch-panel.lay-up' } },
      data: {
        state: 'working',
        startedAt: new Date('2026-11-30T08:00:00Z'),
        finishedAt: new Date('2026-11-30T10:00:00Z'),
      },
    });
    const part = await api.rest('GET', '/yards/small/parts/hatch', { token: tokens.foreman });
    const { status, body } = await api.rest('PATCH', '/yards/small/parts/hatch', {
      token: tokens.foreman,
      headers: { 'if-match': part.headers.get('etag') ?? '' },
      body: { areaM2: 5, space: 'hull' },
    });
    expect({ status, body }).toMatchObject({
      status: 200,
      body: { areaM2: 5, space: 'hull', jobs: [{ procedureVersion: 1 }] },
    });
    expect((await tasks()).map((task) => [task.stepId, task.workMinutes, task.spaceId])).toEqual([
      ['lay-up', 30 + 2 * 40, 'bay'],
      ['fair', 15 + 5 * 30, 'hull'],
    ]);
    const event = await database.owner.event.findFirst({
      where: { yardId: 'small', kind: 'part-changed' },
    });
    expect(event).toMatchObject({
      subjectId: 'hatch',
      byMemberId: 'ines',
      payload: { resizedTasks: 1 },
    });
  });

  test('a job makes its tasks and takes them away again; begun work stays', async () => {
    const part = { id: 'locker', name: 'Cockpit locker', space: 'bay', areaM2: 1 };
    const { body } = await api.graphql(
      'mutation ($p: PartInput!, $j: JobInput!) { createPart(yardId: "small", refitId: "petrel-winter", input: $p) { id jobs { id } } addJob(yardId: "small", partId: "locker", input: $j) { id procedureVersion } }',
      { p: part, j: { id: 'locker-panel', procedure: 'panel', after: ['hatch-panel'] } },
      { token: tokens.foreman },
    );
    expect(body).toEqual({
      data: {
        createPart: { id: 'locker', jobs: [] },
        addJob: { id: 'locker-panel', procedureVersion: 2 },
      },
    });
    const made = { where: { yardId: 'small', jobId: 'locker-panel' } };
    expect(await database.owner.task.count(made)).toBe(2);
    expect(
      await database.owner.taskLink.count({
        where: { yardId: 'small', toTaskId: 'locker-panel.lay-up' },
      }),
    ).toBe(1);
    expect(
      (await api.rest('DELETE', '/yards/small/jobs/locker-panel', { token: tokens.foreman }))
        .status,
    ).toBe(204);
    expect(await database.owner.task.count(made)).toBe(0);
    expect(
      await api.rest('DELETE', '/yards/small/jobs/hatch-panel', { token: tokens.foreman }),
    ).toMatchObject({
      status: 409,
      body: { code: 'record.in-use' },
    });
    expect((await tasks()).length).toBe(2);
  });

  test('a job that names what is not there is refused by its path', async () => {
    const { body } = await api.rest('POST', '/yards/small/parts/hatch/jobs', {
      token: tokens.foreman,
      body: { id: 'nope', procedure: 'no-such' },
    });
    expect(faultsOf(body)).toEqual([['procedure', 'yard.reference']]);
  });

  test('a promise before the release is refused', async () => {
    const { status, body } = await api.rest('POST', '/yards/small/boats/petrel/refits', {
      token: tokens.foreman,
      body: {
        id: 'early',
        name: 'Early',
        release: '2026-12-10T07:00:00Z',
        promised: '2026-12-01T07:00:00Z',
      },
    });
    expect({ status, code: body.code }).toEqual({ status: 422, code: 'yard.promise' });
  });

  test('GraphQL gives a boat with everything in it', async () => {
    const { body } = await api.graphql(
      '{ boat(yardId: "small", id: "petrel") { name refits { promised parts { id areaM2 jobs { procedure } } } } }',
      undefined,
      { token: tokens.owner },
    );
    expect(body, JSON.stringify(body)).toMatchObject({
      data: {
        boat: {
          name: 'Petrel',
          refits: [
            {
              promised: '2026-12-18T16:00:00Z',
              parts: { 0: { id: 'hatch', areaM2: 5, jobs: [{ procedure: 'panel' }] } },
            },
          ],
        },
      },
    });
  });

  test('a new size does not undo a start that comes between', async () => {
    const part = await api.rest('GET', '/yards/small/parts/hatch', { token: tokens.foreman });
    const started = {
      state: 'working' as const,
      startedAt: new Date('2026-12-01T08:00:00Z'),
    };
    const resize = await inYard(database.service, service('small'), async (tx) => {
      await lockWork(tx, 'small');
      await tx.task.update({
        where: { yardId_id: { yardId: 'small', id: 'hatch-panel.fair' } },
        data: started,
      });
      const answer = api.rest('PATCH', '/yards/small/parts/hatch', {
        token: tokens.foreman,
        headers: { 'if-match': part.headers.get('etag') ?? '' },
        body: { areaM2: 6 },
      });
      await someoneWaits();
      return { answer };
    });
    expect(await resize.answer).toMatchObject({ status: 200, body: { areaM2: 6 } });
    const [, fair] = await tasks();
    expect(fair).toMatchObject({ ...started, workMinutes: 15 + 5 * 30 });
  });

  /** Until a transaction on this database waits for another's lock. */
  async function someoneWaits(): Promise<void> {
    const waiting = (): Promise<unknown[]> =>
      database.owner.$queryRaw`SELECT 1 FROM pg_locks
        WHERE NOT granted AND pid IN (SELECT pid FROM pg_stat_activity WHERE datname = current_database())`;
    while ((await waiting()).length === 0) await sleep(20);
  }
});
