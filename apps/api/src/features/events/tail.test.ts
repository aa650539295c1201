import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import type { LoggedEvent } from './logged-event.ts';
import { YardTail } from './tail.ts';

const event = (id: number): LoggedEvent => ({
  yardId: 'y',
  id: BigInt(id),
  kind: 'task-started',
  subject: 'task',
  subjectId: 't',
  payload: {},
  at: new Date(0),
  byMemberId: null,
});

/** A log in memory that counts how often it is read, and can be out of order. */
function logOf(...ids: number[]) {
  const events = ids.map(event);
  const log = { reads: 0, isDown: false, errors: [] as unknown[] };
  const read = async (after: bigint, limit: number): Promise<LoggedEvent[]> => {
    log.reads += 1;
    await sleep(1);
    if (log.isDown) throw new Error('the database is away');
    return events.filter(({ id }) => id > after).slice(0, limit);
  };
  const tail = (from: number) =>
    new YardTail(BigInt(from), read, (error) => log.errors.push(error));
  return { log, tail, add: (...more: number[]) => events.push(...more.map(event)) };
}

/** What a follower gets from `tail` after `from`, up to the event `until`. */
async function collect(tail: YardTail, from: number, until: number): Promise<number[]> {
  const left = AbortSignal.timeout(5_000);
  const got: number[] = [];
  let last = BigInt(from);
  while (last < BigInt(until)) {
    const events = await tail.after(last, left);
    expect(events, 'nothing came in time').not.toEqual([]);
    got.push(...events.map(({ id }) => Number(id)));
    last = events.at(-1)?.id ?? last;
  }
  return got;
}

const range = (from: number, to: number): number[] =>
  Array.from({ length: to - from + 1 }, (_, k) => from + k);

describe('the tail of a log', () => {
  it('gives what was there and what comes, once each and in order', async () => {
    const { tail, add } = logOf(3, 5);
    const following = tail(0);
    following.nudge();
    const got = collect(following, 0, 12);
    await sleep(20);
    add(8);
    following.nudge();
    await sleep(20);
    add(11, 12);
    following.nudge();
    expect(await got).toEqual([3, 5, 8, 11, 12]);
  });

  it('reads once for many followers', async () => {
    const { log, tail, add } = logOf(1);
    const following = tail(1);
    const all = range(1, 40).map(() => collect(following, 1, 3));
    await sleep(20);
    const before = log.reads;
    add(2, 3);
    following.nudge();
    for (const got of await Promise.all(all)) expect(got).toEqual([2, 3]);
    expect(log.reads - before).toBe(1);
  });

  it('serves a follower from long ago, while new ones come in bulk', async () => {
    const { tail, add } = logOf(...range(1, 900));
    const following = tail(900);
    following.nudge();
    const late = collect(following, 0, 2_000);
    const current = collect(following, 900, 2_000);
    add(...range(901, 2_000));
    following.nudge();
    expect(await late).toEqual(range(1, 2_000));
    expect(await current).toEqual(range(901, 2_000));
  });

  it('goes on after a read that failed', async () => {
    const { log, tail, add } = logOf();
    const following = tail(0);
    const got = collect(following, 0, 1);
    log.isDown = true;
    add(1);
    following.nudge();
    await expect.poll(() => log.errors.length).toBe(1);
    log.isDown = false;
    expect(await got).toEqual([1]);
  });

  it('lets a follower go that waits', async () => {
    const { tail } = logOf();
    const leaving = new AbortController();
    const waiting = tail(0).after(0n, leaving.signal);
    leaving.abort();
    expect(await waiting).toEqual([]);
  });
});
