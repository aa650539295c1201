import type { PgBoss } from 'pg-boss';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inYard, service } from '#persistence/client.ts';
import { verifyReplay } from '#persistence/live/replay.ts';
import { YardStates } from '#persistence/live/yard-states.ts';
import { createBoss } from '#persistence/queue/boss.ts';
import { loadWorkload } from '#persistence/workload/store.ts';
import { loadYard } from '#persistence/yard/store.ts';
import { compile } from '#planning/compile/compile.ts';
import type { Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { jobOf } from '#planning/testing/small-yard.ts';
import { solve } from '#scheduling/solve.ts';
import { check } from '#scheduling/checker/check.ts';
import { bondOnly, coatOneDone, yardNamed } from '#tests/support/coat-one-done.ts';
import { testDatabase } from '#tests/support/database.ts';
import { planted } from '#tests/support/planted.ts';
import { missedWindows } from '../../apps/worker/src/follower/missed-windows.ts';

const database = testDatabase();
let states: YardStates;
let boss: PgBoss;

beforeAll(async () => {
  states = new YardStates(database.serviceUrl);
  boss = createBoss(database.serviceUrl, { role: 'sender', onError: () => undefined });
  await coatOneDone(database, yardNamed('only', bondOnly));
  await coatOneDone(
    database,
    yardNamed('either', () => undefined),
  );
});
afterAll(() => states.close());

const visit = (yardId: string, now: string): Promise<void> =>
  inYard(database.service, service(yardId), (tx) =>
    missedWindows({ tx, yardId, now: new Date(now), events: [], states, boss }),
  );
const eventsOf = (yardId: string) =>
  database.owner.event.findMany({
    where: { yardId, subject: 'task' },
    orderBy: { id: 'asc' },
    select: { kind: true, subjectId: true, byMemberId: true, payload: true },
  });
const workOf = (yardId: string): Promise<{ yard: Yard; workload: Workload }> =>
  inYard(database.service, service(yardId), async (tx) => ({
    yard: await loadYard(tx, yardId),
    workload: await loadWorkload(tx, yardId),
  }));
const setState = async (yardId: string, state: 'waiting' | 'working', startedAt: string | null) => {
  await database.owner.task.update({
    where: { yardId_id: { yardId, id: 'lid.two' } },
    data: { state, startedAt },
  });
  await planted(database, yardId);
};

describe('a window that nobody can keep any more', () => {
  it('is left alone while it can be kept', async () => {
    await visit('only', '2026-11-02T13:59:00Z');
    expect(await eventsOf('only')).toEqual([]);
  });

  it('is left alone while the work is going on', async () => {
    await setState('only', 'working', '2026-11-02T13:30:00Z');
    await visit('only', '2026-11-02T15:30:00Z');
    expect(await eventsOf('only')).toEqual([]);
    await setState('only', 'waiting', null);
  });

  it('has the preparation added, by the service, and said', async () => {
    await visit('only', '2026-11-02T14:00:00Z');
    const [event, ...more] = await eventsOf('only');
    expect(more).toEqual([]);
    expect(event).toMatchObject({
      kind: 'rework-made',
      subjectId: 'lid.two',
      byMemberId: null,
      payload: { cause: 'missed-window', taskId: 'lid.two' },
    });
    expect(JSON.stringify(event.payload)).toContain(
      'first it has to be washed with water, abraded with 80 grit, vacuumed and wiped.',
    );
    const { workload } = await workOf('only');
    const added = workload.tasks.filter(({ rework }) => rework !== null);
    expect(added.map(({ stepId, state }) => [stepId, state])).toEqual([
      ['key', 'waiting'],
      ['wipe', 'waiting'],
    ]);
    const into = workload.links.filter(({ to }) => to === 'lid.two');
    expect(into.map(({ from, closes }) => [from === 'lid.one', closes])).toEqual([
      [false, { kind: 'after', minutes: 240 }],
      [true, null],
    ]);
  });

  it('has it once, however often it is looked at', async () => {
    await visit('only', '2026-11-02T14:00:00Z');
    await visit('only', '2026-11-03T08:00:00Z');
    expect(await eventsOf('only')).toHaveLength(1);
    expect(await database.owner.rework.count({ where: { yardId: 'only' } })).toBe(1);
  });

  it('lets the rest be planned, and the log replays to what is stored', async () => {
    const { yard, workload } = await workOf('only');
    const { problem } = compile({ yard, workload, now: '2026-11-02T15:00:00Z' });
    const { plan } = solve(problem, { seed: 1, iterations: 8 });
    expect(plan === null ? 'no plan' : check(problem, plan)).toEqual([]);
    // May be sanded 960 min after 10:00: at 02:00, so on Tuesday at 08:00.
    const key = problem.activities.findIndex(({ id }) => id.startsWith('lid.two.key'));
    expect(plan?.placements.find(({ activity }) => activity === key)?.start).toBe(24 * 60);
    const broken = await inYard(database.service, service('only'), (tx) =>
      verifyReplay(tx, 'only'),
    );
    // The test wrote what was done past the log.
    expect(broken.filter((line) => !/lid\.(sand|one)\b/.test(line))).toEqual([]);
  });
});

it('where there is another way, that is said once and nothing is added', async () => {
  await visit('either', '2026-11-02T14:00:00Z');
  await visit('either', '2026-11-02T14:05:00Z');
  const events = await eventsOf('either');
  expect(events.map(({ kind, subjectId }) => [kind, subjectId])).toEqual([
    ['window-missed', 'lid.two'],
  ]);
  expect(JSON.stringify(events[0].payload)).toContain('left is “abraded”');
  expect(await database.owner.rework.count({ where: { yardId: 'either' } })).toBe(0);
});

it('two visits at once add one preparation', async () => {
  await coatOneDone(database, yardNamed('twice', bondOnly));
  const now = '2026-11-02T14:00:00Z';
  await Promise.all([visit('twice', now), visit('twice', now)]);
  expect(await database.owner.rework.count({ where: { yardId: 'twice' } })).toBe(1);
  expect(await eventsOf('twice')).toHaveLength(1);
});

it('a task that nothing can be prepared for is told once, and the others have theirs', async () => {
  const yard = yardNamed('mixed', (draft) => {
    bondOnly(draft);
    const { parts } = draft.boats[0].refits[0];
    parts.push({ ...parts[0], id: 'door', name: 'Door', jobs: [jobOf('door')] });
  });
  await coatOneDone(database, yard, ['lid', 'door']);
  // An order that leads in a circle as soon as anything is to be done between the coats.
  await database.owner.taskLink.create({
    data: {
      yardId: 'mixed',
      id: 'wrong',
      fromTaskId: 'lid.two',
      toTaskId: 'lid.one',
      opensMinutes: 0,
    },
  });
  await planted(database, 'mixed');
  await visit('mixed', '2026-11-02T14:00:00Z');
  await visit('mixed', '2026-11-02T14:05:00Z');
  const events = await eventsOf('mixed');
  expect(events.map(({ kind, subjectId }) => [kind, subjectId]).sort()).toEqual([
    ['rework-made', 'door.two'],
    ['window-missed', 'lid.two'],
  ]);
  const [told] = events.filter(({ kind }) => kind === 'window-missed');
  expect(told.payload).toMatchObject({ toDecide: true, linkIds: [expect.any(String)] });
  expect(JSON.stringify(told.payload)).toContain('they wait for each other');
  expect(JSON.stringify(told.payload)).toContain('The foreman has to decide');
  const reworks = await database.owner.rework.findMany({ where: { yardId: 'mixed' } });
  expect(reworks.map(({ taskId }) => taskId)).toEqual(['door.two']);
});
