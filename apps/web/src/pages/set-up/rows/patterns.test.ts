import { describe, expect, it } from 'vitest';
import { endsNextDay, patternsOf, runsOf, weekHours } from './patterns.ts';

const shift = (
  weekday: number,
  from: string,
  to: string,
  breaks = [{ from: '12:00', to: '12:30' }],
) => ({
  weekday,
  from,
  to,
  breaks,
});

describe('hours of a week', () => {
  it('puts days of the same hours together', () => {
    const spans = [
      shift(1, '08:00', '16:30'),
      shift(3, '08:00', '16:30'),
      shift(2, '08:00', '12:00', []),
      shift(2, '08:00', '16:30'),
    ];
    const patterns = patternsOf(spans);
    expect(patterns.map(({ days, from, to }) => [days, from, to])).toEqual([
      [[1, 2, 3], '08:00', '16:30'],
      [[2], '08:00', '12:00'],
    ]);
    expect(patterns[0]?.breaks).toEqual([{ from: '12:00', to: '12:30' }]);
  });

  it('counts them without breaks, over midnight too', () => {
    expect(weekHours([shift(1, '08:00', '16:30')])).toBe(8);
    expect(weekHours([shift(1, '22:00', '06:00', [{ from: '01:45', to: '02:15' }])])).toBe(7.5);
    expect(weekHours([{ from: '18:00', to: '00:00' }])).toBe(6);
    expect(weekHours([{ from: '', to: '16:00' }])).toBe(0);
    expect(endsNextDay({ from: '18:00', to: '00:00' })).toBe(true);
    expect(endsNextDay({ from: '18:00', to: '18:01' })).toBe(false);
    expect(endsNextDay({ from: '', to: '' })).toBe(false);
  });

  it('says days in runs', () => {
    expect(runsOf([1, 2, 3, 6])).toEqual([
      [1, 3],
      [6, 6],
    ]);
    expect(runsOf([])).toEqual([]);
  });
});
