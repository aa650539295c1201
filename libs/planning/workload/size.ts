import type { Part } from '../yard/boats.ts';
import type { Consumption, Effort } from '../yard/procedures.ts';

/** What work on a part is sized by. */
type Size = Pick<Part, 'areaM2' | 'edgeM' | 'jointM'>;

/** So much for the job, and for each square metre, metre of edge and metre of joint of the part. */
export function sized(
  { fixed, perM2, perEdgeM, perJointM }: Omit<Consumption, 'stock'>,
  { areaM2, edgeM, jointM }: Size,
): number {
  return fixed + perM2 * areaM2 + perEdgeM * edgeM + perJointM * jointM;
}

/** Whole builder-minutes of a step on a part: rounded up, at least 1. */
export const workMinutes = (effort: Effort, part: Size): number =>
  Math.max(1, Math.ceil(sized(effort, part) - 1e-6)); // 0.1 m2 * 30 min is 3 minutes, not the 3.0000000000000004 of binary fractions
