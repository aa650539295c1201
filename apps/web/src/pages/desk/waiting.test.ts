import { describe, expect, it } from 'vitest';
import type { Schema } from '../../api/client.ts';
import { type Desk, waitingOf } from './waiting.ts';

const now = Date.parse('2026-11-26T12:00:00Z');
const hours = (count: number): string => new Date(now + count * 3_600_000).toISOString();
const when = (count: number) => ({ at: hours(count), local: hours(count).slice(0, 16) });

const nothing: Desk = {
  candidates: [],
  reports: [],
  snags: [],
  changes: [],
  alarms: [],
  words: [],
  bookings: [],
  warnings: 0,
};

const listener = (id: string, acknowledgedAt: string | null) => ({
  id,
  name: id,
  shownAt: null,
  acknowledgedAt,
});
const alarm = (
  id: string,
  rungAt: string,
  audience: Schema<'Alarm'>['audience'],
  kind: Schema<'Alarm'>['kind'] = 'closes',
): Schema<'Alarm'> => ({
  id,
  kind,
  taskId: null,
  words: '',
  rungAt,
  dueAt: rungAt,
  shownAt: null,
  acknowledgedAt: null,
  audience,
});
const booking = (taskId: string, bookBy: number): Desk['bookings'][number] => ({
  taskId,
  task: 'lift',
  part: 'hull',
  boat: 'Petrel',
  slot: {
    listId: 'crane',
    list: 'Crane',
    from: when(900),
    until: when(901),
    price: 0,
    bookBy: when(bookBy),
  },
});
const shown = (desk: Partial<Desk>, me = 'ines'): [string, string][] =>
  waitingOf({ ...nothing, ...desk }, me, now).map(({ urgency, id }) => [urgency, id]);

describe('what waits', () => {
  it('is nothing where nothing does', () => {
    expect(shown({})).toEqual([]);
  });

  it('of alarms is what oneself, or lately nobody, took note of', () => {
    const alarms = [
      alarm('mine', hours(-200), [listener('ines', null), listener('bram', hours(-1))]),
      alarm('noted', hours(-1), [listener('ines', hours(-0.5))]),
      alarm('of-bram', hours(-2), [listener('bram', null)]),
      alarm('of-bram-old', hours(-60), [listener('bram', null)]),
      alarm('of-two', hours(-2), [listener('bram', null), listener('cato', hours(-1))]),
      alarm('opens', hours(-3), [listener('ines', null)], 'opens'),
    ];
    expect(shown({ alarms })).toEqual([
      ['now', 'mine'],
      ['now', 'of-bram'],
      ['soon', 'opens'],
    ]);
  });

  it('of bookings is the sooner the earlier they have to be made, overdue ones first', () => {
    const bookings = [
      booking('month', 700),
      booking('week', 100),
      booking('late', -5),
      booking('today', 3),
    ];
    expect(shown({ bookings })).toEqual([
      ['now', 'late'],
      ['now', 'today'],
      ['soon', 'week'],
      ['later', 'month'],
    ]);
  });

  it('comes before what is doubtful in the set-up', () => {
    expect(shown({ warnings: 3, bookings: [booking('month', 700)] })).toEqual([
      ['later', 'month'],
      ['later', 'all'],
    ]);
  });
});
