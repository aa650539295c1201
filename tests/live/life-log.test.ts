import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { toLocal } from '#calendar/local-time.ts';
import type { TaskLife } from '#live/life/life.ts';
import { course, kinds, steps } from '#live/life/testing/reporting.ts';
import { inYard, service, type Transaction } from '#persistence/client.ts';
import { loadLives } from '#persistence/live/load-lives.ts';
import { verifyReplay } from '#persistence/live/replay.ts';
import { logWork, storeWork } from '#persistence/live/report-work.ts';
import { saveTasks } from '#persistence/workload/store.ts';
import { saveYard } from '#persistence/yard/store.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { yardSchema } from '#planning/yard/yard.ts';
import { testDatabase } from '../support/database.ts';
import { twoBoats } from '../support/two-boats.ts';

/** What is stored of a life, and what the log says of it, after whatever was reported. */
const database = testDatabase();
const courses = 24;
const tasks: string[] = [];
const within = <T>(work: (tx: Transaction) => Promise<T>): Promise<T> =>
  inYard(database.service, service('small'), work);

beforeAll(async () => {
  const made = twoBoats(toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date);
  const [petrel] = made.boats ?? [];
  const parts = Array.from({ length: courses }, (_, k) => ({
    id: `part-${String(k)}`,
    name: `Part ${String(k)}`,
    space: 'bay',
    areaM2: 1,
    jobs: [{ id: `job-${String(k)}`, procedure: 'panel' }],
  }));
  const refits = petrel.refits?.map((refit) => ({ ...refit, parts }));
  const yard = yardSchema.parse({ ...made, boats: [{ ...petrel, refits }] });
  const workload = makeWorkload(yard);
  await within(async (tx) => {
    await saveYard(tx, yard);
    await saveTasks(tx, 'small', workload);
  });
  tasks.push(...workload.tasks.filter(({ stepId }) => stepId === 'fair').map(({ id }) => id));
});

/** Takes everything that was reported in a course into the tables and the log of one task. */
async function take(taskId: string, made: ReturnType<typeof course>): Promise<void> {
  const { setCrew } = made.log[0].before;
  await database.owner.taskCrew.createMany({
    data: setCrew.map((memberId) => ({ yardId: 'small', taskId, memberId, setByForeman: true })),
  });
  // The course counts its events from one; the yard's log goes on.
  const ids = new Map<string, string>();
  for (const { id, kind, payload: told, by } of made.log) {
    const payload = { ...told, undoes: told.undoes && (ids.get(told.undoes) ?? '') };
    const report = { yardId: 'small', taskId, kind, payload, byMemberId: by };
    await within(async (tx) => {
      await storeWork(tx, report);
      await logWork(tx, report);
      const { _max } = await tx.event.aggregate({ where: { yardId: 'small' }, _max: { id: true } });
      ids.set(id, String(_max.id));
    });
  }
}

describe('the log of whatever was reported', () => {
  test('replays to exactly what is stored', async () => {
    const expected = new Map<string, TaskLife>();
    const drawn = fc.sample(
      fc.tuple(fc.constantFrom(...(Object.keys(kinds) as (keyof typeof kinds)[])), steps),
      { numRuns: courses, seed: 7 },
    );
    for (const [k, [kind, taken]] of drawn.entries()) {
      const made = course(kind, taken, k);
      if (made.log.length === 0) continue;
      await take(tasks[k], made);
      expected.set(tasks[k], made.life);
    }
    expect(expected.size).toBeGreaterThan(courses / 2);
    const stored = await within((tx) => loadLives(tx, 'small', [...expected.keys()]));
    for (const [taskId, life] of expected) expect(stored.get(taskId)).toEqual(life);
    expect(await within((tx) => verifyReplay(tx, 'small'))).toEqual([]);
    expect(await database.owner.event.count()).toBeGreaterThan(100);
  });

  test('and a change of what is stored that it does not tell is found', async () => {
    const done = await database.owner.task.findFirstOrThrow({ where: { state: 'done' } });
    const wrong = new Date('2026-11-02T00:00:00Z');
    const where = { yardId_id: { yardId: 'small', id: done.id } };
    await database.owner.task.update({ where, data: { startedAt: wrong } });
    const told = await within((tx) => verifyReplay(tx, 'small'));
    expect(told).toHaveLength(1);
    expect(told[0]).toMatch(
      /^job-\d+\.fair: startedAt is "2026-11-02T00:00:00.000Z", and by the log/,
    );
    await database.owner.task.update({ where, data: { startedAt: done.startedAt } });

    await database.owner.workSpan.deleteMany({ where: { taskId: done.id } });
    const lost = await within((tx) => verifyReplay(tx, 'small'));
    expect(lost).toHaveLength(1);
    expect(lost[0]).toContain(`${done.id}: spans is []`);
  });
});
