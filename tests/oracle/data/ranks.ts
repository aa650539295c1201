import type { Problem, Refit } from '#scheduling/model/problem.ts';
import { rows } from '../dzn.ts';
import type { Data } from './tables.ts';

/** How late a refit is that finishes at a minute. */
function late({ due, handovers }: Refit, finish: number, horizon: number): number {
  if (due === null) return 0;
  const handover =
    handovers.length === 0 ? finish : (handovers.find((at) => at >= finish) ?? horizon);
  return Math.max(0, handover - due);
}

/** The first two ranks of some finishes. */
export function rankValues(
  { refits, horizon }: Problem,
  finishes: readonly number[],
): [number, number] {
  const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
  return [
    sum(refits.map((refit, r) => refit.weight * late(refit, finishes[r], horizon))),
    sum(refits.map(({ weight }, r) => weight * finishes[r])),
  ];
}

/** A number that no rank 2 reaches: with it, both ranks are one. */
export const beyond = ({ refits, horizon }: Problem): number =>
  1 + refits.reduce((sum, { weight }) => sum + weight * horizon, 0);

/** The data of model/ranks.mzn but for what is minimised. */
export function ranks({ refits, activities, horizon }: Problem): Data {
  return {
    REFITS: refits.length,
    REFIT: activities.map(({ refit }) => (refit ?? -1) + 1),
    WEIGHT: refits.map(({ weight }) => weight),
    LATE: rows(
      refits.map((refit) =>
        Array.from({ length: horizon + 1 }, (_, finish) => late(refit, finish, horizon)),
      ),
      horizon + 1,
      1,
      0,
    ),
  };
}
