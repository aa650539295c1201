import type { Outcome } from './solveFile.ts';

/** The line of one file for programs. */
export const jsonLine = (
  file: string,
  { status, makespan, bound, seconds, toBest }: Outcome,
): string => JSON.stringify({ file, status, makespan, bound, seconds, toBest });

/** The line of one file for people, the file names padded to `width`. */
export function readableLine(file: string, width: number, outcome: Outcome): string {
  const makespan = outcome.makespan === null ? '-' : String(outcome.makespan);
  const best = outcome.toBest === null ? '-' : outcome.toBest.toFixed(3);
  return [
    file.padEnd(width),
    outcome.status.padEnd(10),
    `makespan ${makespan.padStart(6)}`,
    `bound ${String(outcome.bound).padStart(6)}`,
    `${outcome.seconds.toFixed(3).padStart(9)} s`,
    `best after ${best.padStart(9)} s`,
  ].join('  ');
}
