import type { Problem } from '../model/problem.ts';
import { activity, lag, mode, problem } from './make.ts';

/**
 * The construction project of Hillier & Lieberman, "Introduction to Operations Research", chapter
 * on networks: activity, predecessors, weeks. Duration 44; critical A B C E F J L N.
 */
const rows: readonly (readonly [string, string, number])[] = [
  ['A', '', 2],
  ['B', 'A', 4],
  ['C', 'B', 10],
  ['D', 'C', 6],
  ['E', 'C', 4],
  ['F', 'E', 5],
  ['G', 'D', 7],
  ['H', 'EG', 9],
  ['I', 'C', 7],
  ['J', 'FI', 8],
  ['K', 'J', 4],
  ['L', 'J', 5],
  ['M', 'H', 2],
  ['N', 'KL', 6],
];

export const letters = rows.map(([id]) => id);

/** One minute stands for a week. */
export function workedExample(): Problem {
  const index = (id: string): number => letters.indexOf(id);
  return problem({
    horizon: 100,
    activities: rows.map(([id, , weeks]) => activity(id, [mode({ duration: weeks })])),
    lags: rows.flatMap(([id, after]) =>
      letters
        .filter((before) => after.includes(before))
        .map((before) => lag(index(before), index(id), 0)),
    ),
    refits: [{ id: 'house', release: 0, due: null, handovers: [], weight: 1, source: 'house' }],
  });
}
