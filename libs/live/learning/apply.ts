import type { Effort } from '#planning/yard/procedures.ts';

/** Three decimals of a minute: finer than anybody times work. */
const fine = (minutes: number): number => Math.round(minutes * 1000) / 1000;

/** Of a text field of the yard file. */
const LONGEST_SOURCE = 300;

/** A step's effort so many times as long, with where that comes from before where it came from. */
export function effortTimes(effort: Effort, factor: number, because: string): Effort {
  return {
    fixed: fine(effort.fixed * factor),
    perM2: fine(effort.perM2 * factor),
    perEdgeM: fine(effort.perEdgeM * factor),
    perJointM: fine(effort.perJointM * factor),
    source: `${because} Before: ${effort.source}`.slice(0, LONGEST_SOURCE),
  };
}

/** Percent of the nominal rate of somebody who takes so many times as long as that said. */
export const speedOver = (speed: number, factor: number): number => Math.round(speed / factor);

/** Percent of what a step says, of a space where it takes so many times as long as that said. */
export const percentTimes = (percent: number, factor: number): number =>
  Math.round(percent * factor);
