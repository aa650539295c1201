import { afterAll, beforeAll, expect, test } from 'vitest';
import { random } from '#kernel/random.ts';
import { holding } from '#live/life/life.ts';
import { crowdedYard, type Hand, signedIn, storeYard } from '../support/crowd.ts';
import { testDatabase } from '../support/database.ts';
import { type Process, startApiProcess } from '../support/processes.ts';
import { afterwards, builder, type Storm } from './storm/driver.ts';
import { holdersIn } from './storm/holders.ts';

const database = testDatabase();
const yardId = 'crowd';
const seconds = process.env['LONG_TESTS'] === '1' ? 30 : 12;
const leaseSeconds = 4;
const builders = 200;
const pieces = 50;
let hands: Hand[] = [];
const apis: (Process & { url: string })[] = [];

beforeAll(async () => {
  await storeYard(database, crowdedYard(yardId, builders, pieces));
  await database.owner.yard.update({ where: { id: yardId }, data: { leaseSeconds } });
  const ids = Array.from({ length: builders }, (_, k) => `hand-${String(k).padStart(3, '0')}`);
  hands = await signedIn(database, yardId, ids);
  // All of them are behind one address.
  const env = { REQUESTS_PER_MINUTE: '1000000' };
  const starting = [1, 2].map(() => startApiProcess(database.serviceUrl, env));
  apis.push(...(await Promise.all(starting)));
}, 240_000);
afterAll(() => Promise.all(apis.map((api) => api.end('SIGTERM'))));

test(
  'two hundred builders over fifty tasks: at no moment has one two holders',
  { timeout: 300_000 },
  async () => {
    const storm: Storm = {
      urls: apis.map(({ url }) => url),
      yardId,
      tasks: (await database.owner.task.findMany({ where: { yardId } })).map(({ id }) => id),
      leaseMs: leaseSeconds * 1000,
      until: Date.now() + seconds * 1000,
      draw: random(20_261_126),
      acknowledged: new Map(),
      counts: new Map(),
      indefinite: [],
    };
    expect(storm.tasks).toHaveLength(pieces);
    await Promise.all(hands.map((hand) => builder(storm, hand)));
    await afterwards(storm, hands.slice(0, 8));

    const { counts, indefinite, acknowledged } = storm;
    const sum = (what: RegExp): number =>
      [...counts].reduce((total, [key, count]) => total + (what.test(key) ? count : 0), 0);
    const events = await database.owner.event.findMany({
      where: { yardId },
      orderBy: { id: 'asc' },
    });
    const told = holdersIn(events);
    process.stdout.write(
      [
        `${String(builders)} builders, ${String(pieces)} tasks, ${String(seconds)} s, two processes:`,
        ...[...counts].sort().map(([key, count]) => `  ${key}: ${String(count)}`),
        ...[...told.byKind].sort().map(([kind, count]) => `  event ${kind}: ${String(count)}`),
        `  requests: ${String(sum(/./))}; without a definite answer: ${String(indefinite.length)}`,
        `  holdings: ${String(told.held.length)}; with two holders: ${String(told.wrong.length)}`,
        '',
      ].join('\n'),
    );

    expect(indefinite).toEqual([]);
    expect(told.wrong).toEqual([]);
    // What was acknowledged is in the log, and nothing else is.
    const logged = (kind: string): number => told.byKind.get(kind) ?? 0;
    expect(logged('task-claimed')).toBe(sum(/^claim 201/));
    expect(logged('task-started')).toBe(sum(/^start 200/));
    expect(logged('task-finished')).toBe(sum(/^finish 200/));
    expect(logged('task-released')).toBe(sum(/^release 200/));
    expect(new Set(told.held.map(({ claimId }) => claimId))).toEqual(new Set(acknowledged.keys()));
    // Each of the things happened, however busy the machine was.
    for (const kind of ['released', 'started', 'finished'].map((what) => `task-${what}`))
      expect(logged(kind)).toBeGreaterThan(0);
    expect(logged('claim-lapsed')).toBeGreaterThan(0);
    expect(logged('task-claimed')).toBeGreaterThan(pieces);

    // The tables say the same: nobody holds what the log says is free, nor the other way round.
    const stored = await database.owner.claim.findMany({
      where: { yardId, status: { in: [...holding] } },
    });
    const open = told.held.filter(({ until }) => until === null);
    expect(stored.map(({ id }) => id).sort()).toEqual(open.map(({ claimId }) => claimId).sort());
    expect(await database.owner.claim.count({ where: { yardId } })).toBe(acknowledged.size);
  },
);
