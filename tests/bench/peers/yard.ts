import { compile } from '#planning/compile/compile.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { generateYard, type YardSettings } from '#seeds/generate/yard.ts';
import { onGrid } from './grid.ts';

/** A made-up yard in steps of so many minutes. */
export function yardOnGrid(settings: YardSettings, grid: number): Problem {
  const yard = generateYard(settings);
  return onGrid(compile({ yard, workload: makeWorkload(yard) }).problem, grid);
}
