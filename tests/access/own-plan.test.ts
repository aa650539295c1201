import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Actor, inYard, service } from '#persistence/client.ts';
import { readSheet } from '#persistence/plan/sheet.ts';
import { saveTasks } from '#persistence/workload/store.ts';
import { saveYard } from '#persistence/yard/store.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { yardSchema } from '#planning/yard/yard.ts';
import { testDatabase } from '#tests/support/database.ts';
import { publishPlan } from '#tests/support/published-plan.ts';
import { twoBoats } from '#tests/support/two-boats.ts';

const database = testDatabase();

/** Odile owns Petrel, worked on in the bay; Otto owns Heron, in its hull. */
const accounts = { odile: randomUUID(), otto: randomUUID(), bram: randomUUID() };
const as = (who: keyof typeof accounts): Actor => ({
  as: 'member',
  yardId: 'small',
  accountId: accounts[who],
  sees: 'all',
});
let sheet: PlanSheet | undefined;

beforeAll(async () => {
  const yard = yardSchema.parse(twoBoats('2026-11-26'));
  await inYard(database.service, service('small'), async (tx) => {
    await saveYard(tx, yard);
    await saveTasks(tx, 'small', makeWorkload(yard));
  });
  for (const [id, accountId] of Object.entries(accounts)) {
    await database.owner.account.create({
      data: { id: accountId, email: `${id}@yard.test`, name: id },
    });
    const where = { yardId_id: { yardId: 'small', id } };
    await database.owner.member.update({ where, data: { accountId } });
  }
});

async function ownSheet(actor: Actor): Promise<unknown> {
  const rows = await inYard(
    database.service,
    actor,
    (tx) => tx.$queryRaw<{ sheet: unknown }[]>`SELECT own_published_sheet() AS sheet`,
  );
  return rows[0].sheet;
}

it('there is no sheet before a plan is published', async () => {
  expect(await ownSheet(as('odile'))).toBeNull();
  sheet = await publishPlan(database, 'small');
});

describe('the published sheet of an owner', () => {
  it('has the own boats, as the shape of a sheet, and no word of another', async () => {
    const whole = sheet?.tasks.filter(({ boatId }) => boatId === 'petrel') ?? [];
    expect(whole.length).toBeGreaterThan(0);
    expect(whole.some(({ crew }) => crew.length > 0)).toBe(true);
    const raw = await ownSheet(as('odile'));
    const own = readSheet(raw);
    expect(own.boats.map(({ boatId }) => boatId)).toEqual(['petrel']);
    expect(
      own.tasks.map(({ id, start, finish, film, space }) => [id, start, finish, film, space]),
    ).toEqual(whole.map(({ id, start, finish, film, space }) => [id, start, finish, film, space]));
    expect(JSON.stringify(raw)).not.toMatch(/heron|otto/i);
    expect(JSON.stringify(await ownSheet(as('otto')))).not.toMatch(/petrel|odile/i);
  });

  it('has no crew, no money and no ranks of the yard', async () => {
    const own = readSheet(await ownSheet(as('odile')));
    const names = ['Bram', 'anke', 'cato', 'dirk', 'elin', 'fay', 'Ines'];
    expect(names.filter((name) => JSON.stringify(own).includes(name))).toEqual([]);
    expect(own.tasks.filter(({ crew }) => crew.length > 0)).toEqual([]);
    expect([own.ranks, own.moved, own.shopping, own.materials]).toEqual([[], [], [], []]);
    expect(new Set(Object.values(own.money))).toEqual(new Set([0]));
    expect(own.boats.flatMap(({ chain }) => chain)).toEqual([]);
  });

  it('names the crew where the yard lets its owners see it', async () => {
    const where = { id: 'small' };
    await database.owner.yard.update({ where, data: { ownersSeeCrew: true } });
    const own = readSheet(await ownSheet(as('odile')));
    const crews = sheet?.tasks.filter(({ boatId }) => boatId === 'petrel').map(({ crew }) => crew);
    expect(own.tasks.map(({ crew }) => crew)).toEqual(crews);
    await database.owner.yard.update({ where, data: { ownersSeeCrew: false } });
  });

  it('keeps back what a later sheet may add', async () => {
    const added = {
      ...sheet,
      wages: 'secret',
      tasks: sheet?.tasks.map((task) => ({ ...task, wage: 'secret' })),
    };
    await database.owner.$executeRawUnsafe('ALTER TABLE plan DISABLE TRIGGER immutable');
    await database.owner.$executeRawUnsafe(
      'UPDATE plan SET sheet = $1::jsonb',
      JSON.stringify(added),
    );
    const raw = await ownSheet(as('odile'));
    expect(readSheet(raw).tasks.length).toBeGreaterThan(0);
    expect(JSON.stringify(raw)).not.toContain('secret');
  });

  it('is empty for whoever owns no boat, and for the service', async () => {
    for (const actor of [as('bram'), service('small')]) {
      expect(await ownSheet(actor)).toMatchObject({ boats: [], tasks: [] });
    }
  });
});

describe('the spaces that an owner’s boat needs', () => {
  interface Taken {
    readonly space_id: string;
    readonly space_name: string;
    readonly start_at: Date;
    readonly finish_at: Date;
    readonly task_id: string | null;
  }
  const occupancy = (since: string, until: string): Promise<Taken[]> =>
    inYard(
      database.service,
      as('odile'),
      (tx) => tx.$queryRaw<Taken[]>`
        SELECT * FROM space_occupancy(${new Date(since)}, ${new Date(until)})`,
    );
  const at = (when: string): number => new Date(when).getTime();

  it('are taken by own tasks, or by others without a word of whose; other spaces are not named', async () => {
    // Otto's boat comes into the bay as well, for two of its tasks.
    const [first, second] = sheet?.tasks.filter(({ boatId }) => boatId === 'heron') ?? [];
    expect([first.finish.at <= second.start.at, first.spaceId, second.spaceId]).toEqual([
      true,
      'hull',
      'hull',
    ]);
    const moved = sheet?.tasks.map((task) =>
      task.id === first.id || task.id === second.id
        ? { ...task, spaceId: 'bay', space: 'Bench bay' }
        : task,
    );
    await database.owner.$executeRawUnsafe(
      'UPDATE plan SET sheet = $1::jsonb',
      JSON.stringify({ ...sheet, tasks: moved }),
    );
    const own = sheet?.tasks.filter(({ boatId }) => boatId === 'petrel') ?? [];
    const taken = await occupancy('2026-01-01T00:00:00Z', '2028-01-01T00:00:00Z');
    expect(new Set(taken.map(({ space_id }) => space_id))).toEqual(new Set(['bay']));
    expect(
      taken
        .filter(({ task_id }) => task_id !== null)
        .map(({ task_id, start_at, finish_at }) => [
          task_id,
          start_at.getTime(),
          finish_at.getTime(),
        ])
        .sort(),
    ).toEqual(own.map(({ id, start, finish }) => [id, at(start.at), at(finish.at)]).sort());
    const spans = taken
      .filter(({ task_id }) => task_id === null)
      .map(({ start_at, finish_at }) => [start_at.getTime(), finish_at.getTime()]);
    const touching = first.finish.at === second.start.at;
    expect(spans).toEqual(
      touching
        ? [[at(first.start.at), at(second.finish.at)]]
        : [
            [at(first.start.at), at(first.finish.at)],
            [at(second.start.at), at(second.finish.at)],
          ],
    );
    expect(JSON.stringify(taken)).not.toMatch(/heron|otto/i);
  });

  it('show nothing outside the span that is asked for', async () => {
    const whole = await occupancy('2026-01-01T00:00:00Z', '2028-01-01T00:00:00Z');
    const [since, until] = ['2026-11-17T00:00:00Z', '2026-11-17T10:00:00Z'];
    const part = await occupancy(since, until);
    expect(part.length).toBeLessThan(whole.length);
    for (const { start_at, finish_at } of part) {
      expect(start_at.getTime()).toBeGreaterThanOrEqual(at(since));
      expect(finish_at.getTime()).toBeLessThanOrEqual(at(until));
    }
    expect(await occupancy('2030-01-01T00:00:00Z', '2030-02-01T00:00:00Z')).toEqual([]);
  });
});
