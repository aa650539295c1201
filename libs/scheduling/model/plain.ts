import type { Mode } from './problem.ts';

/** A way of working that asks for nothing but what is given: no minutes, nobody, nowhere. */
export const plainMode = (given: Partial<Mode> = {}): Mode => ({
  duration: 0,
  work: 0,
  floor: 0,
  crew: [],
  demands: [],
  consumes: [],
  splittable: false,
  breaks: 'relieved',
  cleanDown: 0,
  forbidden: [],
  space: null,
  air: 'clean',
  movesTo: null,
  barrier: null,
  slots: null,
  cost: 0,
  ...given,
});
