import { describe, expect, it } from 'vitest';
import { crewHours, days, laterOrEarlier, span } from './span.ts';

describe('a span in words', () => {
  it.each([
    [0, '0 min'],
    [0.4, '0 min'],
    [45, '45 min'],
    [-45, '45 min'],
    [59.6, '1 h'],
    [60, '1 h'],
    [200, '3 h 20 min'],
    [1439, '23 h 59 min'],
    [1440, '1 day'],
    [1469, '1 day'],
    [1470, '1 day 1 h'],
    // No day of 24 hours and nothing: what is rounded is carried.
    [2879, '2 days'],
    [3060, '2 days 3 h'],
  ])('%d minutes: %s', (minutes, words) => {
    expect(span(minutes)).toBe(words);
  });

  it('is one or several', () => {
    expect([days(1), days(2)]).toEqual(['1 day', '2 days']);
    expect([60, 90, -90, 0.2].map(crewHours)).toEqual([
      '1 crew hour',
      '1.5 crew hours',
      '1.5 crew hours',
      null,
    ]);
  });

  it('is later or earlier, or neither', () => {
    expect([120, -1440, 0.3].map(laterOrEarlier)).toEqual([
      '2 h later',
      '1 day earlier',
      'at the same time',
    ]);
  });
});
