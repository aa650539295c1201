import { afterAll, beforeAll, expect, it } from 'vitest';
import { applyEdits } from '#live/edits/apply.ts';
import { noEdits, type WorkEdits } from '#live/edits/edits.ts';
import { inYard, service, type Transaction } from '#persistence/client.ts';
import { loadForEdits, saveEdits } from '#persistence/live/edits.ts';
import { loadLives } from '#persistence/live/load-lives.ts';
import { loadWorkload, lockWork, saveTasks } from '#persistence/workload/store.ts';
import { loadYard, saveYard } from '#persistence/yard/store.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Task } from '#planning/workload/workload.ts';
import { partSchema } from '#planning/yard/boats.ts';
import { readYard } from '#planning/yard/read.ts';
import { demoYard } from '#seeds/demo-yard.ts';
import { testDatabase } from '#tests/support/database.ts';

const database = testDatabase();
const yard = readYard(demoYard, 'demo');
const { id: yardId } = yard;
const made = makeWorkload(yard);
const tasksOf = (partId: string): Task[] => made.tasks.filter((task) => task.partId === partId);
/** A part whose work has choices and links to that of others, and the refit it belongs to. */
const [[refit, part]] = yard.boats
  .flatMap(({ refits }) => refits)
  .flatMap((one) => one.parts.map((of) => [one, of] as const))
  .filter(([, { id }]) => made.choices.some(({ partId }) => partId === id))
  .sort(([, a], [, b]) => tasksOf(b.id).length - tasksOf(a.id).length);
const begun = tasksOf(part.id).slice(0, 3);

const undone = new Error('undone');

/** Whatever `work` writes is gone afterwards. */
async function tried(work: (tx: Transaction) => Promise<void>): Promise<void> {
  const done = inYard(database.service, service(yardId), async (tx) => {
    await lockWork(tx, yardId);
    await work(tx);
    throw undone;
  });
  await expect(done).rejects.toBe(undone);
}

beforeAll(async () => {
  await inYard(
    database.service,
    {
      as: 'member',
      yardId,
      accountId: (
        await database.owner.account.create({
          data: { email: 'edits@yard.test', name: 'Edits', passwordHash: 'none' },
        })
      ).id,
      sees: 'all',
      founder: yard.people[0].id,
    },
    async (tx) => {
      await saveYard(tx, yard);
      await saveTasks(tx, yardId, made);
      for (const { id } of begun) {
        const at = new Date('2026-11-30T08:00:00Z');
        await tx.task.update({
          where: { yardId_id: { yardId, id } },
          data: { state: 'done', startedAt: at, finishedAt: at },
        });
      }
    },
    { timeout: 60_000 },
  );
});
afterAll(() => database.service.$disconnect());

const again = (task: Task): Task => ({
  ...task,
  id: `${task.id}~again`,
  state: 'waiting',
  startedAt: null,
  finishedAt: null,
  crew: [],
  holds: [],
  replaces: task.id,
});
const waiting = made.tasks.filter(({ id }) => !begun.some((task) => task.id === id));
const order = (from: string, to: string) => ({
  id: `${from}..${to}`,
  from,
  to,
  opens: { kind: 'after', minutes: 30 } as const,
  closes: null,
  sweep: 'unknown' as const,
  setBy: 'job' as const,
});
const further = partSchema.parse({
  ...part,
  id: 'further',
  name: 'Further',
  jobs: part.jobs.map((job) => ({ ...job, id: `further-${job.id}`, after: [job.id], joins: [] })),
});

const cases: readonly (readonly [string, Partial<WorkEdits>])[] = [
  ['nothing', {}],
  ['a size', { resize: [{ partId: part.id, areaM2: part.areaM2 + 1, edgeM: part.edgeM + 1 }] }],
  ['a part less', { dropParts: [part.id] }],
  ['every part less', { dropParts: refit.parts.map(({ id }) => id) }],
  ['a part more', { addParts: [{ refitId: refit.id, part: further }] }],
  [
    'one part less and one more',
    { dropParts: [part.id], addParts: [{ refitId: refit.id, part: further }] },
  ],
  ['every third task less', { drop: waiting.filter((_, k) => k % 3 === 0).map(({ id }) => id) }],
  [
    'something again',
    {
      redo: [begun[2].id],
      addTasks: [again(begun[2])],
      addLinks: [order(begun[2].id, again(begun[2]).id)],
      removeLinks: made.links.slice(-3).map(({ id }) => id),
    },
  ],
];

it.each(cases)('the database is what the edits make of what it was: %s', async (_, some) => {
  const edits: WorkEdits = { ...noEdits, ...some };
  await tried(async (tx) => {
    const before = await loadForEdits(tx, yardId);
    const plain = await loadYard(tx, yardId);
    const wanted = applyEdits(before.yard, before.workload, edits);
    const lives = await saveEdits(tx, yardId, edits);
    expect(await loadWorkload(tx, yardId)).toEqual(wanted.workload);
    expect(await loadYard(tx, yardId)).toEqual(applyEdits(plain, before.workload, edits).yard);
    const stored = await loadLives(
      tx,
      yardId,
      lives.map(({ taskId }) => taskId),
    );
    expect(lives.map(({ taskId, after }) => [taskId, after])).toEqual(
      lives.map(({ taskId }) => [taskId, stored.get(taskId)]),
    );
    const gone = before.workload.tasks.filter(
      ({ id }) => !wanted.workload.tasks.some((task) => task.id === id),
    );
    const changed = new Set(lives.map(({ taskId }) => taskId));
    expect(gone.filter(({ id }) => !changed.has(id))).toEqual([]);
  });
});

it('a claim of what is dropped ends, and crews stay as they were set', async () => {
  const [dropped] = waiting.filter(({ partId }) => partId === part.id);
  const builder = yard.people.find(({ roles }) => roles.includes('builder'))?.id ?? '';
  await tried(async (tx) => {
    await tx.taskCrew.create({
      data: { yardId, taskId: begun[0].id, memberId: builder, setByForeman: true },
    });
    const claim = await tx.claim.create({
      data: { yardId, taskId: dropped.id, memberId: builder },
    });
    const lives = await saveEdits(tx, yardId, { ...noEdits, dropParts: [part.id] });
    const [life] = lives.filter(({ taskId }) => taskId === dropped.id);
    expect([life.before?.claim?.id, life.after.claim]).toEqual([claim.id, null]);
    const row = await tx.claim.findUniqueOrThrow({
      where: { yardId_id: { yardId, id: claim.id } },
    });
    expect(row.status).toBe('released');
    const kept = await loadLives(tx, yardId, [begun[0].id]);
    expect(kept.get(begun[0].id)).toMatchObject({ state: 'done', setCrew: [builder] });
  });
});
