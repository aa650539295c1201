import { firstReaching, lastOpened } from './lag-table.ts';
import type { LagFunction, Problem } from './problem.ts';

/** The earliest anchor for which a closing reaches the minute `to`; Infinity if none does. */
export const earliestReaching = (problem: Problem, fn: LagFunction, to: number): number =>
  fn.kind === 'constant' ? to - fn.minutes : firstReaching(problem.tables[fn.table], to);

/** The latest anchor for which an opening has opened by the minute `to`; -Infinity if none has. */
export const latestOpened = (problem: Problem, fn: LagFunction, to: number): number =>
  fn.kind === 'constant' ? to - fn.minutes : lastOpened(problem.tables[fn.table], to);
