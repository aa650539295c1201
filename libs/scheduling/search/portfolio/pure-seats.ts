import { createDestructive } from '../exact/destructive.ts';
import { createExact } from '../exact/exact.ts';
import { createNeighbourhood } from '../exact/neighbourhood.ts';
import { createPopulation } from '../list/population.ts';
import { roundAfter } from './rounds.ts';
import type { Seat } from './seat.ts';

/** Of a round, by searcher. */
interface Shares {
  readonly exact: number;
  readonly destructive: number;
  readonly population: number;
  readonly neighbourhood: number;
}

/** Up to so many activities a proof is what takes time; beyond, good plans and bounds do. */
const FEW = 45;
/** Some thousand conflicts of the first searcher decide most problems. */
const JOIN = roundAfter(100_000);
/** By then the population has a plan that is worth improving. */
const IMPROVE = JOIN + 3;

const sharesOf = (n: number): Shares =>
  n <= FEW
    ? { exact: 1, destructive: 0.15, population: 0.1, neighbourhood: 0.15 }
    : { exact: 0.65, destructive: 0.35, population: 0.5, neighbourhood: 0.5 };

/**
 * Searchers of a problem without crews, calendars and choices: the learning search that proves, and
 * later on one that refutes makespans and two that improve plans. `isLagged`: there are lags other
 * than from a finish to a start, with which lists are dearer. Costs measured on files of 30
 * to 120 activities with scarce resources.
 */
export function pureSeats(n: number, isLagged: boolean): readonly Seat[] {
  const shares = sharesOf(n);
  return [
    {
      name: 'exact',
      proves: true,
      needsPlan: false,
      from: 0,
      share: shares.exact,
      cost: 60 + 0.8 * n,
      open: ({ problem, seed, warm, limits }) => createExact(problem, seed, warm, limits),
    },
    {
      name: 'population',
      proves: false,
      needsPlan: false,
      from: JOIN,
      share: shares.population,
      cost: isLagged ? 50 * n : 80 + 0.055 * n * n,
      open: ({ problem, seed, warm }) => createPopulation(problem, seed, warm),
    },
    {
      name: 'neighbourhood',
      proves: false,
      needsPlan: true,
      from: IMPROVE,
      share: shares.neighbourhood,
      cost: 40 + n,
      open: ({ problem, seed, warm, limits }) => createNeighbourhood(problem, seed, warm, limits),
    },
    {
      name: 'destructive',
      proves: true,
      needsPlan: false,
      from: JOIN,
      share: shares.destructive,
      cost: Math.max(150, 13 * n - 150),
      open: ({ problem, seed, warm, limits }) => createDestructive(problem, seed, warm, limits),
    },
  ];
}
