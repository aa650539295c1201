import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { toLocal } from '#calendar/local-time.ts';
import { random } from '#kernel/random.ts';
import { inYard, service, type Transaction } from '#persistence/client.ts';
import { everything, loadState, type YardState } from '#persistence/live/yard-state.ts';
import { YardStates } from '#persistence/live/yard-states.ts';
import { isoOf } from '#persistence/rows.ts';
import { lockWork } from '#persistence/workload/store.ts';
import { saveYard } from '#persistence/yard/store.ts';
import { yardSchema } from '#planning/yard/yard.ts';
import { type Answer, testApi } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { appendPlanted, planted } from '../support/planted.ts';
import { publishPlan } from '../support/published-plan.ts';
import { moreBuilders, twoBoats } from '../support/two-boats.ts';

const database = testDatabase();
const api = testApi(database);
const today = toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date;
const people = ['ines', 'bram', 'fay', 'odile', ...moreBuilders] as const;
type Person = (typeof people)[number];
const tokens = new Map<Person, string>();
const mirrors: YardStates[] = [];

const mirror = (options?: ConstructorParameters<typeof YardStates>[1]): YardStates => {
  const made = new YardStates(database.serviceUrl, options);
  mirrors.push(made);
  return made;
};

beforeAll(async () => {
  for (const name of people) await api.addAccount(`${name}@yard.test`);
  for (const name of people) tokens.set(name, await api.signIn(`${name}@yard.test`));
  const { status, body } = await call('ines', 'POST', '/yards', twoBoats(today));
  if (status !== 201) throw new Error(JSON.stringify(body));
  await api.join('small');
  await publishPlan(database, 'small');
});
afterAll(() => Promise.all(mirrors.map((one) => one.close())));

function call(
  who: Person,
  method: string,
  path: string,
  body?: unknown,
  headers: Record<string, string> = {},
): Promise<Answer> {
  const token = tokens.get(who) ?? '';
  return api.rest(method, path, { token, headers, ...(body === undefined ? {} : { body }) });
}

const asService = <T>(work: (tx: Transaction) => Promise<T>, yardId = 'small'): Promise<T> =>
  inYard(database.service, service(yardId), work);

const fresh = (tx: Transaction, yardId = 'small'): Promise<YardState> =>
  loadState(tx, yardId, null, everything);

async function expectSame(states: YardStates): Promise<YardState> {
  return asService(async (tx) => {
    const state = await states.at(tx, 'small');
    expect(state).toEqual(await fresh(tx));
    return state;
  });
}

describe('a yard in memory', () => {
  const draw = random(20_261_126);
  const one = <T>(list: readonly T[]): T => list[draw.below(list.length)];
  const crew: readonly Person[] = ['bram', 'fay', ...moreBuilders];
  const tasks = ['petrel-panel.lay-up', 'heron-panel.lay-up', 'petrel-panel.fair'];

  async function claims(): Promise<string[]> {
    const { body } = await call('ines', 'GET', '/yards/small/claims?first=50');
    const shape = z.object({ items: z.array(z.object({ id: z.string(), status: z.string() })) });
    return shape
      .parse(body)
      .items.filter(({ status }) => ['open', 'working', 'paused'].includes(status))
      .map(({ id }) => id);
  }

  /** Each minute of the past once: two readings of one space do not overlap. */
  let minutesAgo = 0;
  const nextMinute = (): string => {
    minutesAgo += 1;
    return isoOf(new Date(Math.floor(Date.now() / 60_000 - 100 * minutesAgo) * 60_000));
  };

  /** What anybody may do at some time; whether it is refused is the service's business. */
  const doings: Readonly<Record<string, () => Promise<Answer>>> = {
    claim: () => call(one(crew), 'POST', `/yards/small/tasks/${one(tasks)}/claims`, {}),
    act: async () => {
      const held = await claims();
      const verb = one(['start', 'start', 'finish', 'release', 'pause', 'resume', 'join']);
      const who = one([...crew, 'ines' as const]);
      return call(who, 'POST', `/yards/small/claims/${one([...held, 'none'])}/${verb}`, {});
    },
    undo: () => call('ines', 'POST', `/yards/small/tasks/${one(tasks)}/undo`, {}),
    fix: async () => {
      const path = `/yards/small/tasks/${one(tasks)}`;
      const { headers } = await call('ines', 'GET', path);
      const patch = { crew: one<string[]>([[], ['bram']]) };
      return call('ines', 'PATCH', path, patch, { 'if-match': headers.get('etag') ?? '' });
    },
    reading: () =>
      call('bram', 'POST', '/yards/small/readings', {
        readings: [{ at: nextMinute(), space: 'bay', celsius: 15 + draw.below(10) }],
      }),
  };

  test(
    'is after every step of a random history what the database has',
    { timeout: 240_000 },
    async () => {
      const states = mirror();
      const done = new Map<string, number>();
      for (let step = 0; step < 50; step += 1) {
        const what = one(['claim', 'claim', 'act', 'act', 'act', 'act', 'undo', 'fix', 'reading']);
        const { status } = await doings[what]();
        expect(status).toBeLessThan(500);
        if (status < 300) done.set(what, (done.get(what) ?? 0) + 1);
        await expectSame(states);
      }
      await publishPlan(database, 'small');
      await planted(database, 'small');
      await expectSame(states);
      // One that was not there all the time says the same.
      await expectSame(mirror());
      expect([...done.keys()].sort()).toEqual(['act', 'claim', 'fix', 'reading', 'undo']);
    },
  );

  test('shows a transaction its own events, and nobody else before they are committed', async () => {
    const states = mirror();
    const before = await expectSame(states);
    await expect(
      asService(async (tx) => {
        await tx.space.updateMany({ where: { id: 'bay' }, data: { name: 'Renamed' } });
        await appendPlanted(tx, 'small');
        const inside = await states.at(tx, 'small');
        expect(inside.yard.spaces.map(({ name }) => name)).toContain('Renamed');
        const outside = await asService((other) => states.at(other, 'small'));
        expect(outside).toEqual(before);
        throw new Error('taken back');
      }),
    ).rejects.toThrow('taken back');
    expect(await expectSame(states)).toEqual(before);
  });

  test('sees under the lock what was committed while it waited', async () => {
    const states = mirror();
    const before = await expectSame(states);
    const held = Promise.withResolvers<undefined>();
    const go = Promise.withResolvers<undefined>();
    const first = asService(async (tx) => {
      await lockWork(tx, 'small');
      held.resolve(undefined);
      await go.promise;
      await tx.space.updateMany({ where: { id: 'bay' }, data: { name: 'First' } });
      await appendPlanted(tx, 'small');
    });
    await held.promise;
    const second = asService(async (tx) => {
      // Known in this transaction from before the other's change.
      expect((await states.at(tx, 'small')).eventId).toBe(before.eventId);
      go.resolve(undefined);
      await lockWork(tx, 'small');
      return states.at(tx, 'small');
    });
    await first;
    const seen = await second;
    expect(seen.yard.spaces.map(({ name }) => name)).toContain('First');
    expect(seen.eventId).toBeGreaterThan(before.eventId);
  });

  test('is read anew where the log does not fit what is known', async () => {
    const states = mirror();
    const { workload } = await expectSame(states);
    const [{ id }] = workload.tasks;
    const life = { leftMinutes: null, setCrew: [], claim: null, spans: [], crew: [] };
    const done = { state: 'done', startedAt: '2026-11-02T08:00:00.000Z' };
    const after = { ...life, ...done, finishedAt: '2026-11-02T09:00:00.000Z' };
    await database.owner.event.create({
      data: {
        yardId: 'small',
        kind: 'task-finished',
        subject: 'task',
        subjectId: id,
        // Never was it so before.
        payload: {
          at: done.startedAt,
          before: after,
          after,
          reportId: null,
          undoes: null,
          reason: null,
        },
      },
    });
    await expectSame(states);
  });

  test('is given up for others where too many are kept', async () => {
    for (const id of ['one', 'two']) {
      const yard = yardSchema.parse({ ...twoBoats(today), id });
      await asService((tx) => saveYard(tx, yard), id);
    }
    const rename = (name: string) =>
      database.owner.yard.update({ where: { id: 'one' }, data: { name } });
    const nameIn = async (states: YardStates): Promise<string> =>
      (await asService((tx) => states.at(tx, 'one'), 'one')).yard.name;
    const [few, more] = [mirror({ yards: 1 }), mirror({ yards: 2 })];
    for (const states of [few, more]) {
      await nameIn(states);
      await asService((tx) => states.at(tx, 'two'), 'two');
    }
    // Told to nobody: who still has the yard does not see it.
    await rename('Another name');
    expect([await nameIn(few), await nameIn(more)]).toEqual(['Another name', 'Small yard']);
    more.forget('one');
    expect(await nameIn(more)).toBe('Another name');
  });

  test('is not for those who see a part of it', async () => {
    const states = mirror();
    const { accountId } = await database.owner.member.findUniqueOrThrow({
      where: { yardId_id: { yardId: 'small', id: 'odile' } },
    });
    const owner = {
      as: 'member',
      yardId: 'small',
      accountId: accountId ?? '',
      sees: 'own',
    } as const;
    await expect(inYard(database.service, owner, (tx) => states.at(tx, 'small'))).rejects.toThrow(
      'see all of it',
    );
  });
});
