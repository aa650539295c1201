import { describe, expect, it } from 'vitest';
import { hoursOf, ticksOf } from './hours.ts';

const hour = 3_600_000;
const day = 24 * hour;
const whole = { from: 0, until: 2 * day };
/** Two days from seven to four. */
const worked = [
  { from: 7 * hour, until: 16 * hour },
  { from: day + 7 * hour, until: day + 16 * hour },
];

describe('the hours of a picture', () => {
  const hours = hoursOf(worked, whole, { room: 600 });

  it('take the room there is, nights less than they last', () => {
    expect(hours.width).toBe(600);
    const work = hours.at(16 * hour) - hours.at(7 * hour);
    const night = hours.at(day + 7 * hour) - hours.at(16 * hour);
    expect(work).toBeCloseTo(9 * hours.hourPx, 6);
    // Fifteen hours at rest are drawn narrower than two of work.
    expect(night).toBeLessThan(2 * hours.hourPx);
    expect(hours.rests).toHaveLength(3);
  });

  it('lead back from a place to its moment', () => {
    for (const moment of [8 * hour, 12.25 * hour, 20 * hour, day + 9 * hour]) {
      expect(hours.momentAt(hours.at(moment))).toBeCloseTo(moment, -1);
    }
    expect(hours.at(-day)).toBe(0);
    expect(hours.at(5 * day)).toBe(hours.at(2 * day));
  });

  it('are never narrower than can be read, and wider the closer one looks', () => {
    expect(hoursOf(worked, whole, { room: 10 }).hourPx).toBe(15);
    expect(hoursOf(worked, whole, { room: 600, closer: 2 }).hourPx).toBeCloseTo(2 * hours.hourPx);
  });

  it('are written where the yard’s clock shows a whole hour', () => {
    const utc = (moment: number): number => (moment % day) / 60_000;
    const halfPast = (moment: number): number => ((moment + hour / 2) % day) / 60_000;
    expect(ticksOf(hours, utc).every(({ moment }) => moment % hour === 0)).toBe(true);
    const ticks = ticksOf(hours, halfPast);
    expect(ticks.length).toBeGreaterThan(0);
    expect(ticks.every(({ moment }) => moment % hour === hour / 2)).toBe(true);
    expect(ticks.every(({ left }, k) => k === 0 || left - ticks[k - 1].left >= 30)).toBe(true);
  });
});
