import { describe, expect, it } from 'vitest';
import type { YardEvent } from '../../api/live.ts';
import { changesPicture, isOutlived } from './reports.ts';
import { moment, small, task } from './small-picture.ts';

const event = (subjectId: string, given: Partial<YardEvent> = {}): YardEvent => ({
  id: '1',
  kind: 'task-started',
  subject: 'task',
  subjectId,
  at: moment('08:00'),
  byMemberId: 'bram',
  payload: JSON.stringify({ after: { state: 'working' } }),
  ...given,
});
const coat = task({ id: 'coat', at: [['08:00', '09:00']] });

describe('the picture is read again', () => {
  const now = small([coat]);

  it('for a report on a task that is not drawn, in the days that are worked to', () => {
    expect(changesPicture(event('of-another-week'), now)).toBe(true);
    expect(changesPicture(event('coat'), now)).toBe(false);
  });

  it('not for one in other days, nor of a plan that nobody works to', () => {
    for (const given of [{ at: '2026-12-02T00:00:00Z' }, { isPublished: false }]) {
      expect(changesPicture(event('of-another-week'), small([coat], given))).toBe(false);
    }
  });

  it('for any report while it is being read, and for what is no report of work', () => {
    expect(changesPicture(event('coat'), undefined)).toBe(true);
    expect(changesPicture(event('coat', { payload: '{}' }), now)).toBe(true);
    expect(changesPicture(event('coat', { kind: 'alarm-raised' }), undefined)).toBe(false);
  });

  it('when its days are over or have come', () => {
    const [last, after] = ['2026-12-01T23:59:00Z', '2026-12-02T00:00:00Z'].map(Date.parse);
    expect(isOutlived(now, last)).toBe(false);
    expect(isOutlived(now, after)).toBe(true);
    const ahead = small([coat], { at: '2026-11-29T12:00:00Z' });
    expect(isOutlived(ahead, Date.parse('2026-11-29T23:59:00Z'))).toBe(false);
    expect(isOutlived(ahead, last)).toBe(true);
  });
});
