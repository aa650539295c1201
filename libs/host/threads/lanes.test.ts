import { afterEach, describe, expect, it } from 'vitest';
import { openPortfolio } from '#scheduling/search/portfolio/portfolio.ts';
import { rosterOf } from '#scheduling/search/portfolio/roster.ts';
import { madeUpYard } from '#scheduling/testing/made-up-yard.ts';
import { laneOf, placesOf, ALONE, type Lane } from './lanes.ts';
import type { LaneOrder } from './messages.ts';
import { askToStop, newSignals, overdue } from './watch.ts';
import { workplaceOf } from './work.ts';

const yard = madeUpYard(2, 2);
const signals = newSignals(null);
const order: LaneOrder = {
  role: 'further',
  problem: yard,
  seed: 1,
  warmStart: null,
  memoryMB: null,
  allMB: null,
  signals,
};
const parts = [{ seat: 0, iterations: 12, whole: true }];
const lanes: Lane[] = [];

function laneFor(given: Partial<LaneOrder>): Lane {
  const lane = laneOf({ ...order, ...given });
  lanes.push(lane);
  return lane;
}

afterEach(() => {
  for (const lane of lanes.splice(0)) lane.end();
});

describe('a further thread', { timeout: 60_000 }, () => {
  it('finds what the searcher finds without it', async () => {
    const { desk, board } = openPortfolio(yard, 1, null, rosterOf(yard));
    const exchange = board.exchange();
    const memory = { held: () => 0, isShort: () => false };
    const here = workplaceOf(desk, signals, memory).work(parts, exchange, () => undefined);
    const there = await laneFor({}).round(parts, exchange);
    expect(there).toEqual(here);
    expect(here[0].state.plan).not.toBeNull();
  });

  it('is done with once its memory is full, and says so each time', async () => {
    const { board } = openPortfolio(yard, 1, null, rosterOf(yard));
    const lane = laneFor({ memoryMB: 4 });
    expect(await lane.round(parts, board.exchange())).toBeNull();
    expect(await lane.round(parts, board.exchange())).toBeNull();
  });

  it('tells of any other failure, each time', async () => {
    const { board } = openPortfolio(yard, 1, null, rosterOf(yard));
    const lane = laneFor({ problem: { ...yard, tables: [] } });
    await expect(lane.round(parts, board.exchange())).rejects.toThrow(TypeError);
    await expect(lane.round(parts, board.exchange())).rejects.toThrow(TypeError);
  });
});

describe('the thread of each searcher', () => {
  const seat = (from: number, share: number) => ({ ...rosterOf(yard)[0], from, share });

  it('is the first for those that begin early, and then the one with least to do', () => {
    const later = ALONE + 1;
    const seats = [seat(0, 0.5), seat(later, 0.2), seat(later, 0.9), seat(later, 0.4)];
    expect(placesOf(seats, 1)).toEqual([0, 0, 0, 0]);
    expect(placesOf(seats, 2)).toEqual([0, 0, 1, 0]);
    expect(placesOf(seats, 9)).toEqual([0, 3, 1, 2]);
  });
});

describe('waiting for others', () => {
  it('is over some milliseconds after the run is, and when nobody is waited for any more', async () => {
    const own = newSignals(null);
    const waited = overdue(own, new AbortController().signal);
    askToStop(own);
    expect(await waited).toBeNull();
    await expect(overdue(newSignals(null), AbortSignal.abort())).rejects.toThrow();
  });
});
