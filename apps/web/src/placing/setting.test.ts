import { describe, expect, it } from 'vitest';
import { changesOf, settingOf, startOf, withTrial, wishOf } from './setting.ts';

const task = {
  fixedStart: '2026-11-30T08:00:00.000Z',
  crew: [
    { id: 'ada', name: 'Ada' },
    { id: 'bo', name: 'Bo' },
  ],
  after: ['lid.sand'],
};

describe('what the foreman sets', () => {
  it('sends what differs, and only that', () => {
    const now = settingOf(task);
    expect(changesOf(task, now)).toEqual({});
    // The same moment written otherwise, the same people in another order.
    expect(changesOf(task, { ...now, start: '2026-11-30T08:00:00Z', crew: ['bo', 'ada'] })).toEqual(
      {},
    );
    expect(changesOf(task, { ...now, crew: ['bo'] })).toEqual({ crew: ['bo'] });
    expect(changesOf(task, { start: null, crew: [], after: [] })).toEqual({
      fixedStart: null,
      crew: [],
      after: [],
    });
  });

  it('begins with what was dropped on the picture', () => {
    const start = '2026-12-01T09:00:00Z';
    expect(withTrial(settingOf(task), { start })).toMatchObject({ start, crew: ['ada', 'bo'] });
    expect(withTrial(settingOf(task), {}).start).toBe(task.fixedStart);
  });

  it('is tried where there is something to try', () => {
    expect(wishOf({ start: null, crew: [], after: ['lid.sand'] })).toBeNull();
    expect(wishOf({ start: null, crew: ['ada'], after: [] })).toEqual({ crew: ['ada'] });
  });

  it('begins when somebody works, never before the wish', () => {
    const wish = { start: '2026-12-05T09:00:00Z', crew: [], after: [] };
    const tried = (at: string) => ({
      planId: 'p',
      taskId: 't',
      isPossible: true,
      start: { at, local: '' },
      finish: { at, local: '' },
      segments: [],
      crew: [],
      against: [],
      effects: [],
      next: null,
    });
    expect(startOf(wish, tried('2026-12-07T07:00:00Z'))).toBe('2026-12-07T07:00:00Z');
    expect(startOf(wish, tried('2026-12-01T07:00:00Z'))).toBe(wish.start);
    expect(startOf(wish, undefined)).toBe(wish.start);
    expect(startOf({ ...wish, start: null }, tried('2026-12-07T07:00:00Z'))).toBeNull();
  });
});
