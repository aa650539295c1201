import { expect, it } from 'vitest';
import { byDay } from './by-day.ts';

const at = (local: string) => ({ at: `${local}:00Z`, local });
const change = (taskId: string, from: string | null, to: string | null) => ({
  taskId,
  task: taskId,
  boatId: 'b',
  boat: 'Gull',
  part: 'Lid',
  kind: to === null ? ('gone' as const) : ('moved' as const),
  from: from === null ? null : at(from),
  to: to === null ? null : at(to),
  minutes: null,
  peopleBefore: [],
  peopleAfter: [],
});

it('groups what changes by the day on which it is done now; what is gone by where it was', () => {
  const days = byDay([
    change('later', '2026-11-26T09:00', '2026-11-28T09:00'),
    change('gone', '2026-11-27T09:00', null),
    change('same day', '2026-11-28T08:00', '2026-11-28T10:00'),
  ]);
  expect(days.map(({ date, tasks }) => [date, tasks.map(({ taskId }) => taskId)])).toEqual([
    ['2026-11-27', ['gone']],
    ['2026-11-28', ['later', 'same day']],
  ]);
});
