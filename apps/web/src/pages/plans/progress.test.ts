import { describe, expect, it } from 'vitest';
import { type Progress, standings, steps } from './progress.ts';

const told = (second: number, change: Partial<Progress>): Progress => ({
  eventId: String(second),
  at: new Date(Date.UTC(2026, 10, 26, 8, 0, second)).toISOString(),
  status: 'running',
  stopRequested: false,
  iterations: second,
  bestFinish: null,
  bestLateness: null,
  bestFinishes: null,
  boundLateness: null,
  boundFinishes: null,
  bestMoney: null,
  bestDisturbance: null,
  gap: null,
  planId: null,
  error: null,
  ...change,
});

const course = [
  told(0, { status: 'queued' }),
  told(3, {}),
  told(4, { boundFinishes: 1440 }),
  told(5, { boundFinishes: 1440, bestFinishes: 5760 }),
  told(6, { boundFinishes: 1440, bestFinishes: 5760, iterations: 90 }),
  told(9, { boundFinishes: 2880, bestFinishes: 4320, status: 'finished' }),
];

describe('the course of a search', () => {
  it('begins when it is taken up, in days, without what changes nothing', () => {
    expect(standings(course, 'finishes')).toEqual([
      { second: 0, best: null, bound: null },
      { second: 1, best: null, bound: 1 },
      { second: 2, best: 4, bound: 1 },
      { second: 6, best: 3, bound: 2 },
    ]);
    expect(standings(course.slice(0, 1), 'finishes')).toEqual([]);
  });

  it('goes on to the last that was told, though nothing changed', () => {
    expect(standings(course.slice(0, 5), 'finishes').at(-1)?.second).toBe(3);
  });

  it('is drawn in steps: a value holds until the next', () => {
    const x = (second: number): number => second * 10;
    const y = (value: number): number => 100 - value * 10;
    const list = standings(course, 'finishes');
    expect(steps(list, ({ best }) => best, x, y)).toBe('M 20.0 60.0 H 60.0 V 70.0 h 10');
    expect(steps(list.slice(-1), ({ best }) => best, x, y)).toBe('M 60.0 70.0 h 10');
    const ended = standings(course.slice(0, 5), 'finishes');
    expect(steps(ended, ({ best }) => best, x, y)).toBe('M 20.0 60.0 H 30.0 V 60.0');
    expect(steps([], ({ best }) => best, x, y)).toBe('');
  });
});
