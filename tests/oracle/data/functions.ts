import type { LagFunction, LagFunctions, Problem } from '#scheduling/model/problem.ts';
import { firstMinute } from './tables.ts';

/** Every function as its values at all minutes, each once for each side it is rounded to. */
export class Functions {
  readonly values: number[][] = [];
  private readonly problem: Problem;

  constructor(problem: Problem) {
    this.problem = problem;
  }

  /** The number (from 1) of a function. */
  private add(fn: LagFunction, round: (x: number) => number): number {
    const { tables, horizon } = this.problem;
    const first = firstMinute(this.problem);
    const own: number[] = [];
    for (let at = first; at <= horizon; at += 1) {
      if (fn.kind === 'constant') own.push(at + fn.minutes);
      else {
        const { grid, values } = tables[fn.table];
        own.push(values[Math.min(values.length - 1, round(Math.max(0, at) / grid))]);
      }
    }
    return this.values.push(own);
  }

  /** Rows [owner, mode, function] for every mode of an activity. */
  byMode(owner: number, activity: number, fns: LagFunctions, closes: boolean): number[][] {
    const round = closes ? Math.floor : Math.ceil;
    const numbers = fns.map((fn) => this.add(fn, round));
    return this.problem.activities[activity].modes.map((_, m) => [
      owner,
      m + 1,
      numbers.length === 1 ? numbers[0] : numbers[m],
    ]);
  }
}
