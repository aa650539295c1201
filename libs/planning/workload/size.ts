import type { Part } from '../yard/boats.ts';
import type { Effort } from '../yard/procedures.ts';

/** Whole builder-minutes of a step on a part: rounded up, at least 1. */
export function workMinutes(effort: Effort, part: Part): number {
  const { fixed, perM2, perEdgeM, perJointM } = effort;
  const exact = fixed + perM2 * part.areaM2 + perEdgeM * part.edgeM + perJointM * part.jointM;
  return Math.max(1, Math.ceil(exact - 1e-6)); // 0.1 m2 * 30 min is 3 minutes, not the 3.0000000000000004 of binary fractions
}
