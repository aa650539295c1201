import { setTimeout as sleep } from 'node:timers/promises';
import type { PgBoss } from 'pg-boss';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { createClient, inYard, service } from '#persistence/client.ts';
import { YardStates } from '#persistence/live/yard-states.ts';
import { createBoss } from '#persistence/queue/boss.ts';
import { withClient } from '#persistence/roles.ts';
import { saveYard } from '#persistence/yard/store.ts';
import { yardSchema } from '#planning/yard/yard.ts';
import { type Follower, startFollower } from '../../apps/worker/src/follower/follow.ts';
import type { Following } from '../../apps/worker/src/follower/following.ts';
import type { NamedStep } from '../../apps/worker/src/follower/round.ts';
import { testDatabase } from '../support/database.ts';
import { smallYard } from '../support/small-yard.ts';

const database = testDatabase();
const yards = ['a', 'b'] as const;
let states: YardStates;
let boss: PgBoss;

beforeAll(async () => {
  for (const id of yards) {
    const yard = yardSchema.parse(smallYard(id, `Yard ${id}`));
    await inYard(database.service, service(id), (tx) => saveYard(tx, yard));
  }
  states = new YardStates(database.serviceUrl);
  boss = createBoss(database.serviceUrl, { role: 'sender', onError: () => undefined });
});
afterAll(() => states.close());

const noise = async (yardId: string, count = 1): Promise<bigint> => {
  let last = 0n;
  for (let k = 0; k < count; k += 1) {
    ({ id: last } = await inYard(database.service, service(yardId), (tx) =>
      tx.event.create({ data: { yardId, kind: 'noise', subject: 'noise', subjectId: 'n' } }),
    ));
  }
  return last;
};

const cursorOf = async (yardId: string): Promise<bigint | undefined> =>
  (await database.owner.logCursor.findUnique({ where: { yardId } }))?.eventId;

/** Workers that follow until the work is done, each over connections of its own. */
async function following(
  count: number,
  steps: readonly NamedStep[],
  work: (said: readonly string[]) => Promise<void>,
): Promise<void> {
  const said: string[] = [];
  const clients = Array.from({ length: count }, () => createClient(database.serviceUrl));
  const followers: Follower[] = [];
  try {
    for (const prisma of clients) {
      const { serviceUrl: databaseUrl } = database;
      const say = (line: string): void => void said.push(line);
      followers.push(await startFollower({ databaseUrl, prisma, states, boss, steps, say }));
    }
    await work(said);
  } finally {
    await Promise.all(followers.map((one) => one.stop()));
    await Promise.all(clients.map((prisma) => prisma.$disconnect()));
  }
}

/** What was followed, `a:17`, by transactions that were committed: each event leaves a row of its own. */
const marks = async (): Promise<string[]> => {
  const rows = await database.owner.alarm.findMany({ where: { kind: 'mark' } });
  return rows.map(({ yardId, key }) => `${yardId}:${key}`);
};
const mark: NamedStep = {
  name: 'mark',
  take: async ({ tx, yardId, events }: Following) => {
    for (const { id } of events) {
      const key = String(id);
      const data = { yardId, key, kind: 'mark', dueAt: new Date(0), words: '', state: 'void' };
      await tx.alarm.create({ data });
    }
  },
};

beforeEach(() => database.owner.alarm.deleteMany());

describe('the follower of the log', () => {
  test('follows each event once, by however many workers, in any yard', async () => {
    await noise('a', 3);
    await following(3, [mark], async () => {
      const [a, b] = await Promise.all([noise('a', 40), noise('b', 40)]);
      await expect.poll(() => cursorOf('a'), { timeout: 10_000 }).toBe(a);
      await expect.poll(() => cursorOf('b'), { timeout: 10_000 }).toBe(b);
    });
    const found = await marks();
    expect(new Set(found).size).toBe(found.length);
    // Besides what each yard began with.
    expect(found.length).toBeGreaterThanOrEqual(83);
    const logged = await database.owner.event.findMany({ where: { kind: 'noise' } });
    const missing = logged.filter(({ yardId, id }) => !found.includes(`${yardId}:${String(id)}`));
    expect(missing).toEqual([]);
  });

  test('leaves the cursor where a step fails, with nothing done, and goes on in other yards', async () => {
    let isBroken = true;
    const attempts: number[] = [];
    const others: string[] = [];
    /** How often the step had failed when the other yard was served. */
    let failed = 0;
    const breaking: NamedStep = {
      name: 'breaking',
      take: async ({ yardId, tx }) => {
        if (yardId !== 'a') return;
        attempts.push(Date.now());
        await tx.$queryRaw`SELECT 1`;
        if (isBroken) throw new Error('it broke');
      },
    };
    const other: NamedStep = {
      name: 'other',
      take: ({ yardId, events }) => {
        if (events.length === 0) return Promise.resolve();
        others.push(yardId);
        if (yardId === 'b') failed = attempts.length;
        return Promise.resolve();
      },
    };
    await following(1, [mark, breaking, other], async (said) => {
      const before = await cursorOf('a');
      const a = await noise('a');
      const b = await noise('b');
      await expect.poll(() => cursorOf('b')).toBe(b);
      // While the yard that failed waits for its next try.
      expect(failed).toBeLessThanOrEqual(1);
      await expect.poll(() => attempts.length, { timeout: 5_000 }).toBeGreaterThanOrEqual(2);
      expect(await cursorOf('a')).toBe(before);
      // The step after the one that failed did its part all the same.
      expect(others).toContain('a');
      expect(attempts[1] - attempts[0]).toBeGreaterThanOrEqual(900);
      expect(said.join('\n')).toMatch(/follower: a: breaking: Error: it broke\n[^]*again in 1 s/);
      isBroken = false;
      await expect.poll(() => cursorOf('a'), { timeout: 10_000 }).toBe(a);
    });
    expect((await marks()).filter((one) => one.startsWith('a:'))).not.toEqual([]);
  });

  test('commits what goes first before the others begin, which read it at once', async () => {
    const seen: string[] = [];
    const preparing: NamedStep = {
      name: 'preparing',
      first: true,
      take: async ({ tx, yardId, events }) => {
        const isNew = events.some(({ kind }) => kind === 'noise');
        const of = { yardId, kind: 'prepared', subject: 'noise', subjectId: 'n' };
        if (isNew && (await tx.event.count({ where: of })) === 0)
          await tx.event.create({ data: of });
      },
    };
    const reckoning: NamedStep = {
      name: 'reckoning',
      take: async ({ yardId, events }) => {
        // Over a connection that sees only what is committed.
        const there = await database.owner.event.count({ where: { yardId, kind: 'prepared' } });
        const read = events.filter(({ kind }) => kind === 'prepared').length;
        if (events.some(({ kind }) => kind === 'noise'))
          seen.push(`${yardId}: ${String(there)} there, ${String(read)} read`);
      },
    };
    await following(1, [preparing, reckoning], async () => {
      await expect.poll(() => cursorOf('a'), { timeout: 5_000 }).toBeDefined();
      const last = await noise('a');
      await expect
        .poll(async () => ((await cursorOf('a')) ?? 0n) > last, { timeout: 5_000 })
        .toBe(true);
    });
    expect(seen.at(0)).toBe('a: 1 there, 1 read');
  });

  test('goes on by itself when its connections are cut', async () => {
    await following(1, [mark], async () => {
      await expect.poll(() => cursorOf('a'), { timeout: 5_000 }).toBe(await noise('a'));
      await withClient(database.adminUrl, (admin) =>
        admin.query(
          `SELECT pg_terminate_backend(pid) FROM pg_stat_activity
           WHERE datname = current_database() AND usename = 'curewright_service'`,
        ),
      );
      // Those of this test are cut too.
      await sleep(100);
      const last = await noise('a').catch(() => noise('a'));
      await expect.poll(() => cursorOf('a'), { timeout: 15_000 }).toBe(last);
    });
  });
});
