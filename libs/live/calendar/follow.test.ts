import { describe, expect, it } from 'vitest';
import type { CalendarItem, KeyedEntry } from './entry.ts';
import { followed, type Followed } from './follow.ts';

const keyed = (key: string, start = '09:00', summary = key): KeyedEntry => ({
  key,
  entry: {
    summary,
    description: '',
    location: '',
    time: { kind: 'span', start: `2026-11-03T${start}:00.000Z`, end: '2026-11-03T12:00:00.000Z' },
    busy: true,
    alarms: [],
  },
});

/** A feed that remembers what it said, asked from time to time. */
function feed() {
  const kept = new Map<string, CalendarItem>();
  return (hour: number, ...entries: KeyedEntry[]): Followed => {
    const said = followed({
      uidOf: (key) => `uid:${key}`,
      before: [...kept.values()],
      entries,
      since: '2026-09-01T00:00:00.000Z',
      now: `2026-11-02T${String(hour).padStart(2, '0')}:00:00.000Z`,
      zone: 'Etc/UTC',
    });
    for (const item of said.changed) kept.set(item.uid, item);
    return said;
  };
}

const brief = ({ shown }: Followed) =>
  shown.map(({ uid, sequence, cancelled }) => [uid, sequence, cancelled]);

describe('what a feed says', () => {
  it('is the same as long as nothing changes', () => {
    const ask = feed();
    expect(brief(ask(1, keyed('a'), keyed('b', '10:00')))).toEqual([
      ['uid:a', 0, false],
      ['uid:b', 0, false],
    ]);
    const again = ask(2, keyed('b', '10:00'), keyed('a'));
    expect(again.changed).toEqual([]);
    expect(again.shown.map(({ changedAt }) => changedAt.slice(11, 13))).toEqual(['01', '01']);
  });

  it('has a higher number for what is shown differently, and for nothing else', () => {
    const ask = feed();
    ask(1, keyed('a'), keyed('b', '10:00'));
    const moved = ask(2, keyed('a', '09:30'), keyed('b', '10:00'));
    expect(brief(moved)).toEqual([
      ['uid:a', 1, false],
      ['uid:b', 0, false],
    ]);
    expect(moved.changed.map(({ uid }) => uid)).toEqual(['uid:a']);
    expect(brief(ask(3, keyed('a', '09:30', 'other'), keyed('b', '10:00')))[0]).toEqual([
      'uid:a',
      2,
      false,
    ]);
    const alarmed = keyed('b', '10:00');
    alarmed.entry.alarms.push({ at: '2026-11-03T09:00:00.000Z', words: 'soon' });
    expect(brief(ask(4, keyed('a', '09:30', 'other'), alarmed))[1]).toEqual(['uid:b', 1, false]);
  });

  it('cancels what is gone, once, and takes it up again with a higher number', () => {
    const ask = feed();
    ask(1, keyed('a'));
    const gone = ask(2);
    expect(brief(gone)).toEqual([['uid:a', 1, true]]);
    const still = ask(3);
    expect(brief(still)).toEqual([['uid:a', 1, true]]);
    expect(still.changed).toEqual([]);
    expect(brief(ask(4, keyed('a')))).toEqual([['uid:a', 2, false]]);
  });

  it('lets go of what is long past without cancelling it', () => {
    const old = keyed('a');
    const said = followed({
      uidOf: (key) => key,
      before: followed({
        uidOf: (key) => key,
        before: [],
        entries: [old],
        since: '2026-09-01T00:00:00.000Z',
        now: '2026-11-02T00:00:00.000Z',
        zone: 'Etc/UTC',
      }).shown,
      entries: [old],
      since: '2026-11-03T12:00:01.000Z',
      now: '2027-01-02T00:00:00.000Z',
      zone: 'Etc/UTC',
    });
    expect(said).toEqual({ shown: [], changed: [] });
  });
});
