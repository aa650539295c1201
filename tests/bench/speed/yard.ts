import { compile } from '#planning/compile/compile.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { proveRoot } from '#scheduling/bounds/root.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { compile as indexed } from '#scheduling/search/crew/compiled/compiled.ts';
import { crewSearch, type CrewSearch } from '#scheduling/search/crew/search/search.ts';
import { create } from '#scheduling/solve.ts';
import { generateYard } from '#seeds/generate/yard.ts';
import { cpuSince } from './counted.ts';

const BOATS = [
  [100, 3],
  [120, 4],
  [300, 7],
] as const;

/** A made-up yard of about so many tasks. */
export function yardOf(tasks: number, tightness: 'loose' | 'tight', seed = 1): Problem {
  const boats = BOATS.find(([most]) => tasks <= most)?.[1] ?? 10;
  const yard = generateYard({ tasks, boats, tightness, season: 'warm', seed });
  return compile({ yard, workload: makeWorkload(yard) }).problem;
}

/** The search over decodes by itself. */
function decodes(problem: Problem): CrewSearch {
  const compiled = indexed(problem);
  const root = proveRoot(compiled);
  return crewSearch(problem, 1, null, {
    compiled,
    windows: root.analysis.domains,
    bounds: root.bounds,
  });
}

export interface DecodeRate {
  readonly tasks: number;
  /** Candidates decoded: whole, or from the first place on that was changed. */
  readonly decodes: number;
  /** The activities looked at by them, over the tasks: whole decodes' worth. */
  readonly whole: number;
  readonly milliseconds: number;
}

/** Decodes for about so many milliseconds of processor time, after a tenth of that to warm up. */
export function decodeRate(problem: Problem, milliseconds: number): DecodeRate {
  const search = decodes(problem);
  const run = (limit: number): DecodeRate => {
    const from = process.cpuUsage();
    const before = search.counts();
    let milliseconds = 0;
    while (milliseconds < limit) {
      search.step(8);
      milliseconds = cpuSince(from);
    }
    const { decodes: done, looks } = search.counts();
    const tasks = problem.activities.length;
    const whole = (looks - before.looks) / tasks;
    return { tasks, decodes: done - before.decodes, whole, milliseconds };
  };
  run(milliseconds / 10);
  return run(milliseconds);
}

/** Processor milliseconds from the problem to its first plan. */
export function firstPlanMs(problem: Problem): number {
  const from = process.cpuUsage();
  const search = create(problem, 1, null);
  while (search.step(1).plan === null);
  return cpuSince(from);
}
