import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { DomainError } from '#kernel/error.ts';

import {
  addDays,
  dateOf,
  dayNumber,
  isLocalDate,
  isLocalTime,
  minuteOfDay,
  timeOf,
  weekdayOf,
  weekStart,
} from './local-date.ts';

describe('dates', () => {
  it('knows weekdays', () => {
    // ISO 8601 calls 2004-W53-6 the Saturday 2005-01-01; 2000-02-29 was a Tuesday.
    expect(['2005-01-01', '2000-02-29', '1970-01-01', '1969-12-28'].map(weekdayOf)).toEqual([
      6, 2, 4, 7,
    ]);
  });

  it('starts weeks on the Monday', () => {
    expect(['2026-11-02', '2026-11-08', '2027-01-01'].map(weekStart)).toEqual([
      '2026-11-02',
      '2026-11-02',
      '2026-12-28',
    ]);
  });

  it('adds days over leap days and year ends', () => {
    expect(addDays('2028-02-28', 2)).toBe('2028-03-01');
    expect(addDays('2026-01-01', -1)).toBe('2025-12-31');
  });

  it('refuses what is no day', () => {
    for (const bad of ['2026-02-29', '2026-13-01', '2026-00-10', '26-01-01', '2026-1-1', '', 'x']) {
      expect(isLocalDate(bad)).toBe(false);
      expect(() => dayNumber(bad)).toThrow(DomainError);
    }
  });

  it('turns day numbers into dates and back', () => {
    fc.assert(
      fc.property(fc.integer({ min: -100_000, max: 200_000 }), (day) => {
        expect(dayNumber(dateOf(day))).toBe(day);
        expect(weekdayOf(dateOf(day + 7))).toBe(weekdayOf(dateOf(day)));
      }),
    );
  });
});

describe('times of day', () => {
  it('reads and writes them', () => {
    for (let minute = 0; minute < 1440; minute++) expect(minuteOfDay(timeOf(minute))).toBe(minute);
  });

  it('refuses what is no time', () => {
    for (const bad of ['24:00', '7:30', '07:60', '07:30:00', '']) {
      expect(isLocalTime(bad)).toBe(false);
      expect(() => minuteOfDay(bad)).toThrow(DomainError);
    }
  });
});
