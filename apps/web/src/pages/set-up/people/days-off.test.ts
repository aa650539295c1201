import { describe, expect, it } from 'vitest';
import { datesBetween, stretchesOf, withDays, withoutStretch } from './days-off.ts';

const off = (date: string, reason = 'holiday') => ({ date, shifts: [], reason });
const short = { from: '08:00', to: '12:00', breaks: [] };

describe('days that are different', () => {
  it('counts dates over the end of a month and through a change of the clock', () => {
    expect(datesBetween('2026-10-24', '2026-10-26')).toEqual([
      '2026-10-24',
      '2026-10-25',
      '2026-10-26',
    ]);
    expect(datesBetween('2026-12-31', '2027-01-01')).toEqual(['2026-12-31', '2027-01-01']);
    expect(datesBetween('2026-12-02', '2026-12-01')).toEqual([]);
    expect(datesBetween('', '2026-12-01')).toEqual([]);
  });

  it('shows days in a row that are alike as one', () => {
    const stretches = stretchesOf([
      off('2026-12-08'),
      off('2026-12-07'),
      { date: '2026-12-09', shifts: [short], reason: 'holiday' },
      off('2026-12-11'),
      off('2026-12-12', 'course'),
    ]);
    expect(stretches.map(({ first, last, days }) => [first, last, days])).toEqual([
      ['2026-12-07', '2026-12-08', 2],
      ['2026-12-09', '2026-12-09', 1],
      ['2026-12-11', '2026-12-11', 1],
      ['2026-12-12', '2026-12-12', 1],
    ]);
  });

  it('puts new days in place of the old, and takes a stretch out', () => {
    const before = [off('2026-12-07'), off('2026-12-09')];
    const after = withDays(before, ['2026-12-08', '2026-12-09'], { shifts: [short], reason: '' });
    expect(after.map(({ date, reason }) => [date, reason])).toEqual([
      ['2026-12-07', 'holiday'],
      ['2026-12-08', ''],
      ['2026-12-09', ''],
    ]);
    const [, second] = stretchesOf(after);
    expect(second).toMatchObject({ first: '2026-12-08', last: '2026-12-09' });
    expect(withoutStretch(after, second)).toEqual([off('2026-12-07')]);
  });
});
