import type { Problem } from '#scheduling/model/problem.ts';
import { dzn, rows } from '../dzn.ts';
import type { Way } from '../ways/ways.ts';
import { Functions } from './functions.ts';
import { lags } from './lags.ts';
import { places } from './places.ts';
import { ranks } from './ranks.ts';
import { supply } from './supply.ts';
import { firstMinute, type Data } from './tables.ts';
import { work } from './work.ts';

/** What is minimised under which caps on the first ranks. */
export interface Stage {
  readonly factors: readonly [number, number];
  readonly caps: readonly number[];
}

/** The data of `model/problem.mzn`. */
export function dataOf(problem: Problem, ways: readonly Way[], { factors, caps }: Stage): string {
  const modes = ways.map(({ activity, mode }) => problem.activities[activity].modes[mode]);
  const functions = new Functions(problem);
  const data: Data = {
    ...work(problem, ways),
    ...lags(problem, functions),
    ...supply(problem, modes, functions),
    ...places(problem, modes, functions),
    ...ranks(problem),
    FACTOR: factors,
    CAPS: caps,
  };
  const first = firstMinute(problem);
  return dzn({
    ...data,
    FUNCTION_COUNT: functions.values.length,
    FUNCTIONS: rows(functions.values, problem.horizon - first + 1, 1, first),
  });
}
