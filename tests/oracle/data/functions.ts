import type { LagFunction, LagFunctions, LagTable, Problem } from '#scheduling/model/problem.ts';
import { firstMinute } from './tables.ts';

/**
 * What a table says for minute `t`, from the words of the contract: between given points the
 * later value (`up`) or the earlier of steps, and of lines the place on the line, rounded up or down.
 */
export function said(table: LagTable, t: number, up: boolean): number {
  const { values } = table;
  const at = 'at' in table ? table.at : values.map((_, k) => k * table.grid);
  const next = at.findIndex((minute) => minute >= t);
  if (next < 0) return values[values.length - 1];
  if (next === 0 || at[next] === t) return values[next];
  if ('grid' in table) return up ? values[next] : values[next - 1];
  const minutes = at[next] - at[next - 1];
  const risen = (t - at[next - 1]) * (values[next] - values[next - 1]);
  const rest = risen % minutes;
  return values[next - 1] + (risen - rest) / minutes + (up && rest > 0 ? 1 : 0);
}

/** Every function as its values at all minutes, each once for each side it is rounded to. */
export class Functions {
  readonly values: number[][] = [];
  private readonly problem: Problem;

  constructor(problem: Problem) {
    this.problem = problem;
  }

  /** The number (from 1) of a function. */
  private add(fn: LagFunction, up: boolean): number {
    const { tables, horizon } = this.problem;
    const first = firstMinute(this.problem);
    const own: number[] = [];
    for (let at = first; at <= horizon; at += 1)
      own.push(
        fn.kind === 'constant' ? at + fn.minutes : said(tables[fn.table], Math.max(0, at), up),
      );
    return this.values.push(own);
  }

  /** Rows [owner, mode, function] for every mode of an activity. */
  byMode(owner: number, activity: number, fns: LagFunctions, closes: boolean): number[][] {
    const numbers = fns.map((fn) => this.add(fn, !closes));
    return this.problem.activities[activity].modes.map((_, m) => [
      owner,
      m + 1,
      numbers.length === 1 ? numbers[0] : numbers[m],
    ]);
  }
}
