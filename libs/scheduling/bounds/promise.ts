import type { Problem } from '../model/problem.ts';

/** What a refit that finishes then adds to rank 1; never less for a later finish. */
export function promise({ refits, horizon }: Problem, refit: number, finish: number): number {
  const { due, weight, handovers } = refits[refit];
  if (due === null) return 0;
  const handover =
    handovers.length === 0 ? finish : (handovers.find((at) => at >= finish) ?? horizon);
  return weight * Math.max(0, handover - due);
}
