import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { toLocal } from '#calendar/local-time.ts';
import { inYard, service } from '#persistence/client.ts';
import { lapseIfDue } from '#persistence/live/lapse.ts';
import { verifyReplay } from '#persistence/live/replay.ts';
import { type Answer, testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { startWorkerProcess } from '../support/processes.ts';
import { moreBuilders, twoBoats } from '../support/two-boats.ts';
import { until } from '../support/until.ts';

/** Claims: who holds, who joins, what lapses; and how the last report is taken back. */
const database = testDatabase();
const api = testApi(database);

const names = ['ines', 'bram', 'fay', ...moreBuilders] as const;
type Name = (typeof names)[number];
const tokens = new Map<Name, string>();
const [layUp, fair, other] = ['petrel-panel.lay-up', 'petrel-panel.fair', 'heron-panel.lay-up'];

beforeAll(async () => {
  const today = toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date;
  for (const name of names) await api.addAccount(`${name}@yard.test`);
  for (const name of names) tokens.set(name, await api.signIn(`${name}@yard.test`));
  const { status, body } = await call('ines', 'POST', '/yards', twoBoats(today));
  if (status !== 201) throw new Error(JSON.stringify(body));
  await api.join('small');
});

function call(who: Name, method: string, path: string, body?: unknown): Promise<Answer> {
  const token = tokens.get(who) ?? '';
  return api.rest(method, path, { token, ...(body === undefined ? {} : { body }) });
}
const claim = (who: Name, task: string, body?: unknown): Promise<Answer> =>
  call(who, 'POST', `/yards/small/tasks/${task}/claims`, body);
const idOf = ({ body }: Answer): string => z.string().parse(body.id);
const act = (who: Name, held: Answer, verb: string, body?: unknown): Promise<Answer> =>
  call(who, 'POST', `/yards/small/claims/${idOf(held)}/${verb}`, body);
const undo = (who: Name, task: string): Promise<Answer> =>
  call(who, 'POST', `/yards/small/tasks/${task}/undo`);
const taskOf = async (task: string): Promise<Answer['body']> =>
  (await call('ines', 'GET', `/yards/small/tasks/${task}`)).body;
const ago = (minutes: number): string =>
  new Date(Math.floor(Date.now() / 60_000 - minutes) * 60_000).toISOString();
const setYard = (data: { leaseSeconds?: number; undoMinutes?: number }) =>
  database.owner.yard.update({ where: { id: 'small' }, data });
const lapses = (task: string): Promise<boolean> =>
  inYard(database.service, service('small'), (tx) => lapseIfDue(tx, 'small', task, new Date()));
const differences = (): Promise<readonly string[]> =>
  inYard(database.service, service('small'), (tx) => verifyReplay(tx, 'small'));
const lastKinds = async (task: string, count: number): Promise<string[]> =>
  (
    await database.owner.event.findMany({
      where: { yardId: 'small', subjectId: task },
      orderBy: { id: 'desc' },
      take: count,
    })
  )
    .map(({ kind }) => kind)
    .reverse();

describe('a claim', () => {
  test('of two hundred at once one wins, and everybody has an answer', async () => {
    const crowd: readonly Name[] = ['bram', ...moreBuilders];
    const answers = await Promise.all(
      Array.from({ length: 200 }, (_, k) => claim(crowd[k % crowd.length], layUp)),
    );
    const won = answers.filter(({ status }) => status === 201);
    expect(won).toHaveLength(1);
    for (const { status, body } of answers) {
      if (status !== 201) expect([status, body.code]).toEqual([409, 'claim.taken']);
    }
    expect(await database.owner.claim.count({ where: { taskId: layUp } })).toBe(1);
    expect((await act('ines', won[0], 'release')).status).toBe(200);
    expect(await differences()).toEqual([]);
  });

  test('is let lapse by a worker when its time has come', async () => {
    const worker = await startWorkerProcess(database.serviceUrl);
    try {
      await setYard({ leaseSeconds: 1 });
      const held = await claim('bram', layUp);
      const path = `/yards/small/claims/${idOf(held)}`;
      await until(async () => (await call('bram', 'GET', path)).body.status === 'lapsed');
      expect(await taskOf(layUp)).toMatchObject({ state: 'waiting', stands: 'ready' });
      const last = await database.owner.event.findFirstOrThrow({
        where: { kind: 'claim-lapsed' },
        orderBy: { id: 'desc' },
      });
      // As of the moment at which it was over, whenever a worker came to it.
      expect(last).toMatchObject({ subjectId: layUp, byMemberId: null });
      expect(last.payload).toMatchObject({ at: held.body.lapsesAt });
      expect(await differences()).toEqual([]);
    } finally {
      await setYard({ leaseSeconds: 1800 });
      await worker.end('SIGTERM');
    }
  });

  test('takes others in, as many as the task has room for, and lets them go', async () => {
    const held = await claim('bram', layUp);
    expect((await act('fay', held, 'join')).body).toMatchObject({ code: 'claim.crew' });
    expect((await act('bram', held, 'join', { member: 'cato' })).status).toBe(403);
    expect((await act('anke', held, 'join')).body).toMatchObject({
      holder: { id: 'bram' },
      crew: [{ id: 'bram' }, { id: 'anke' }],
    });
    expect((await act('cato', held, 'join')).body).toMatchObject({ code: 'claim.crew' });
    const [began, left] = [ago(90), ago(60)];
    expect((await act('anke', held, 'start', { at: began })).status).toBe(200);
    const elsewhere = await claim('anke', other);
    expect((await act('anke', elsewhere, 'start')).body).toMatchObject({ code: 'claim.state' });
    // Bram falls ill; Anke holds it from then on, and may not leave it alone.
    expect((await act('ines', held, 'leave', { member: 'bram', at: left })).body).toMatchObject({
      holder: { id: 'anke' },
      crew: [{ id: 'anke' }],
    });
    expect((await act('anke', held, 'leave')).body).toMatchObject({ code: 'claim.state' });
    expect((await act('bram', elsewhere, 'join')).status).toBe(200);
    const spans = await database.owner.workSpan.findMany({
      where: { taskId: layUp },
      orderBy: { startAt: 'asc' },
    });
    expect(spans.map(({ crew, startAt, endAt }) => [crew, startAt, endAt])).toEqual([
      [['bram', 'anke'], new Date(began), new Date(left)],
      [['anke'], new Date(left), null],
    ]);
    expect((await act('ines', held, 'finish', { at: ago(0) })).status).toBe(200);
    expect((await act('ines', elsewhere, 'release')).status).toBe(200);
  });

  test('that nobody begins in time lapses, and the next to come has the task', async () => {
    const kept = await claim('bram', other);
    expect(await lapses(other)).toBe(false);
    const end = z.string().parse(kept.body.lapsesAt);
    // pg-boss is to look at it then.
    const jobs = await database.owner.$queryRaw<{ at: Date }[]>`
      SELECT start_after AS at FROM pgboss.job WHERE name = 'claim-lapse' ORDER BY start_after`;
    expect(jobs.map(({ at }) => at.getTime())).toContain(Date.parse(end));
    expect((await act('bram', kept, 'release')).status).toBe(200);

    await setYard({ leaseSeconds: 60 });
    const held = await claim('bram', other, { at: ago(10) });
    const over = z.string().parse(held.body.lapsesAt);
    await setYard({ leaseSeconds: 1800 });
    expect((await act('bram', held, 'release')).body).toMatchObject({ code: 'claim.lapsed' });
    const next = await claim('anke', other);
    expect(next).toMatchObject({ status: 201, body: { holder: { id: 'anke' } } });
    expect(await lastKinds(other, 2)).toEqual(['claim-lapsed', 'task-claimed']);
    expect((await act('bram', held, 'start', { at: ago(5) })).body).toMatchObject({
      code: 'claim.lapsed',
    });
    expect((await call('bram', 'GET', `/yards/small/claims/${idOf(held)}`)).body).toMatchObject({
      status: 'lapsed',
      releasedAt: over,
    });
    expect((await act('anke', next, 'release')).status).toBe(200);
    expect(await lapses(other)).toBe(false);
    expect(await differences()).toEqual([]);
  });

  test('counts though it lapsed where work began before, and word of that came late', async () => {
    await setYard({ leaseSeconds: 60 });
    const held = await claim('bram', other, { at: ago(10) });
    await setYard({ leaseSeconds: 1800 });
    expect(await lapses(other)).toBe(true);
    expect(await taskOf(other)).toMatchObject({ stands: 'ready' });
    expect((await act('bram', held, 'start')).body).toMatchObject({ code: 'claim.lapsed' });
    expect(await act('bram', held, 'start', { at: ago(10) })).toMatchObject({
      status: 200,
      body: { id: idOf(held), status: 'working', releasedAt: null, lapsesAt: null },
    });
    expect(await differences()).toEqual([]);
    expect((await undo('bram', other)).body).toMatchObject({ state: 'waiting', stands: 'ready' });
    expect(await differences()).toEqual([]);
  });

  test('whose start is taken back after its time lapses again', async () => {
    const jobs = async (): Promise<number> => {
      const rows = await database.owner.$queryRaw<{ id: string }[]>`
        SELECT id FROM pgboss.job WHERE name = 'claim-lapse'`;
      return rows.length;
    };
    await setYard({ leaseSeconds: 60 });
    const held = await claim('bram', other, { at: ago(5) });
    await setYard({ leaseSeconds: 1800 });
    expect((await act('bram', held, 'start', { at: ago(5) })).status).toBe(200);
    const before = await jobs();
    expect((await undo('bram', other)).status).toBe(200);
    expect(await jobs()).toBe(before + 1);
    expect(await lapses(other)).toBe(true);
    expect(await differences()).toEqual([]);
  });
});

describe('the last report', () => {
  test('is taken back by whoever made it, in time; by the foreman while nothing follows', async () => {
    expect((await undo('bram', layUp)).body).toMatchObject({ code: 'work.undo' });
    expect((await undo('ines', layUp)).body).toMatchObject({ state: 'working', stands: 'working' });
    const [mine] = await database.owner.claim.findMany({
      where: { taskId: layUp, status: 'working' },
    });
    expect(
      (await call('anke', 'POST', `/yards/small/claims/${mine.id}/finish`, { at: ago(0) })).status,
    ).toBe(200);
    await setYard({ undoMinutes: 0 });
    await new Promise((done) => setTimeout(done, 5));
    expect((await undo('anke', layUp)).body).toMatchObject({ code: 'work.undo' });
    await setYard({ undoMinutes: 10 });
    expect((await undo('anke', layUp)).body).toMatchObject({ state: 'working' });
    const early = { at: ago(100) };
    expect(
      (await call('anke', 'POST', `/yards/small/claims/${mine.id}/finish`, early)).status,
    ).toBe(422);
    expect(
      (await call('anke', 'POST', `/yards/small/claims/${mine.id}/finish`, { at: ago(0) })).status,
    ).toBe(200);
    expect(await differences()).toEqual([]);
  });

  test('of wet work that went wrong makes the work to set it right, and takes that away again', async () => {
    const held = await claim('bram', other);
    expect((await act('bram', held, 'start', { at: ago(30) })).status).toBe(200);
    expect((await act('bram', held, 'abandon', {})).status).toBe(422);
    const before = await database.owner.taskLink.findMany({
      where: { yardId: 'small' },
      orderBy: { id: 'asc' },
    });
    const reason = 'the heater failed, and it is half laid';
    expect(await act('bram', held, 'abandon', { reason, at: ago(10) })).toMatchObject({
      status: 200,
      body: { status: 'released' },
    });
    expect(await lastKinds(other, 2)).toEqual(['task-abandoned', 'rework-made']);
    expect(await taskOf(other)).toMatchObject({ state: 'redo', stands: 'redo' });
    const [rework] = await database.owner.rework.findMany({ include: { tasks: true } });
    expect(rework).toMatchObject({ cause: 'abandoned', taskId: other, madeById: 'bram' });
    const again = rework.tasks.filter(({ replacesId }) => replacesId === other);
    expect(again).toHaveLength(1);
    const waits = await call('fay', 'POST', '/yards/small/tasks/heron-panel.fair/claims');
    expect(waits.body).toMatchObject({ code: 'claim.not-ready' });
    expect(await differences()).toEqual([]);

    expect((await undo('bram', other)).body).toMatchObject({ state: 'working' });
    expect(await lastKinds(other, 2)).toEqual(['task-undone', 'rework-undone']);
    const left = await database.owner.task.findMany({ where: { reworkId: rework.id } });
    expect(left.map(({ state }) => state)).toEqual(left.map(() => 'dropped'));
    const after = await database.owner.taskLink.findMany({
      where: { yardId: 'small' },
      orderBy: { id: 'asc' },
    });
    const told = (links: typeof before) =>
      links.map(({ id, fromTaskId, toTaskId }) => [id, fromTaskId, toTaskId]);
    expect(told(after)).toEqual(told(before));
    expect(await differences()).toEqual([]);
    expect((await act('bram', held, 'finish', { at: ago(5) })).status).toBe(200);
  });

  test('of a batch that did not kick, found when it should be hard', async () => {
    const path = `/yards/small/tasks/${other}/batch-failed`;
    expect((await call('anke', 'POST', path, {})).status).toBe(422);
    const told = await call('anke', 'POST', path, { reason: 'still wet: no hardener in the cup' });
    expect(told.body).toMatchObject({ state: 'redo', stands: 'redo' });
    expect(
      (await call('anke', 'POST', `/yards/small/tasks/${fair}/batch-failed`, { reason: 'x' })).body,
    ).toMatchObject({ code: 'claim.state' });
    const rework = await database.owner.rework.findFirstOrThrow({
      where: { cause: 'not-kicked' },
      include: { tasks: { orderBy: { position: 'asc' } } },
    });
    // The work on the part begins with what the rework prepares; once that is begun it stays.
    const ready = await call('ines', 'GET', '/yards/small/ready?whose=all');
    const ids = z.object({ ready: z.array(z.object({ taskId: z.string() })) }).parse(ready.body);
    const first = ids.ready.find(({ taskId }) => rework.tasks.some(({ id }) => id === taskId));
    expect(first).toBeDefined();
    const held = await claim('ines', first?.taskId ?? '', { crew: ['elin'] });
    expect(held.status).toBe(201);
    expect((await undo('anke', other)).body).toMatchObject({ code: 'work.undo' });
    expect((await act('ines', held, 'release')).status).toBe(200);
    expect(await differences()).toEqual([]);
  });
});
