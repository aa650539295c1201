import { expect, test } from 'vitest';
import type { Deed } from './deed.ts';
import type { QueuedDeed } from './store.ts';
import { runOf, wayOf } from './way.ts';

const claim: Deed = { kind: 'report', command: { kind: 'claim', taskId: 't' }, claimId: null };
/** Of work whose claim the service does not have yet. */
const start: Deed = { kind: 'report', command: { kind: 'start', taskId: 't' }, claimId: null };
const queued = (key: string, deed: Deed, change: Partial<QueuedDeed> = {}): QueuedDeed => ({
  ...{ accountId: 'bram', order: 1, yardId: 'small', key, at: '2026-11-26T08:00:00.000Z' },
  ...{ deed, words: '', tried: null, refused: null },
  ...change,
});

test('goes by itself while somebody waits for the answer, if it can', () => {
  expect(wayOf(queued('a', claim), true)).toBe('directly');
  expect(wayOf(queued('a', claim), false)).toBe('reports');
  expect(wayOf(queued('b', start), true)).toBe('reports');
});

test('goes on by the way on which it was tried, whoever waits', () => {
  expect(wayOf(queued('a', claim, { tried: 'directly' }), false)).toBe('directly');
  expect(wayOf(queued('a', claim, { tried: 'reports' }), true)).toBe('reports');
});

test('reports of one yard go together, up to one that goes by itself or is none', () => {
  const keysOf = (...open: readonly QueuedDeed[]): readonly string[] =>
    runOf(open, ({ key }) => key === 'waits').map(({ key }) => key);
  const first = queued('a', claim);
  expect(keysOf(first, queued('b', start), queued('waits', claim))).toEqual(['a', 'b']);
  expect(keysOf(first, queued('c', claim, { tried: 'directly' }))).toEqual(['a']);
  expect(keysOf(first, queued('c', claim, { tried: 'reports' }))).toEqual(['a', 'c']);
  expect(keysOf(first, queued('c', claim, { yardId: 'other' }))).toEqual(['a']);
  expect(keysOf(first, queued('c', { kind: 'noted', alarmId: 'x' }))).toEqual(['a']);
  // Known on its way by itself, the first goes so whatever follows; a run begins with what does not.
  expect(keysOf(queued('waits', start), queued('b', start))).toEqual(['waits', 'b']);
});
