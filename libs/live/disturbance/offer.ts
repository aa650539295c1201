import type { Difference } from '../difference/difference.ts';

interface Standing {
  /** The published plan can still be worked to as it is. */
  readonly stands: boolean;
  /** Somebody asked for it. */
  readonly asked: boolean;
}

/** Promises kept better, or a boat a day earlier and none a day later. */
function gains({ boats }: Difference): boolean {
  const late = boats.reduce((sum, { lateBefore, lateAfter }) => sum + lateAfter - lateBefore, 0);
  if (late !== 0) return late < 0;
  const days = boats.flatMap((boat) => boat.days ?? []);
  return days.some((one) => one < 0) && !days.some((one) => one > 0);
}

/**
 * Whether another plan is worth the foreman's look: nobody is to be told anew for nothing. One that
 * moves no task never is; where the published one still stands only what gains something is, unless
 * it was asked for.
 */
export function isWorthOffering(difference: Difference, { stands, asked }: Standing): boolean {
  if (difference.moved === 0) return false;
  return !stands || asked || gains(difference);
}
