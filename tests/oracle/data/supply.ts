import type { HoldEnd, Mode, Problem } from '#scheduling/model/problem.ts';
import { rows } from '../dzn.ts';
import type { Functions } from './functions.ts';
import { byWayAnd, firstMinute, type Data } from './tables.ts';

/** The data of model/supply.mzn. */
export function supply(problem: Problem, modes: readonly Mode[], functions: Functions): Data {
  const { resources, holds, stocks, horizon } = problem;
  const first = firstMinute(problem);
  const asked = (mode: Mode, resource: number, kept: boolean): number =>
    mode.demands
      .filter((demand) => demand.resource === resource && demand.keptWhilePaused === kept)
      .reduce((sum, { amount }) => sum + amount, 0);
  const ends = <K extends HoldEnd['kind']>(
    kind: K,
  ): [number, number, Extract<HoldEnd, { kind: K }>][] =>
    holds.flatMap((hold, h) =>
      hold.ends
        .filter((end): end is Extract<HoldEnd, { kind: K }> => end.kind === kind)
        .map((end): [number, number, Extract<HoldEnd, { kind: K }>] => [h + 1, hold.activity, end]),
    );
  return {
    RESOURCES: resources.length,
    CAPACITY: rows(
      resources.map(({ steps }) =>
        Array.from(
          { length: horizon - first + 1 },
          (_, k) => steps.findLast(({ from }) => from <= first + k)?.capacity ?? 0,
        ),
      ),
      horizon - first + 1,
      1,
      first,
    ),
    DEMAND: byWayAnd(
      0,
      resources.length,
      modes.map((mode) => resources.map((_, r) => asked(mode, r, false))),
    ),
    KEPT: byWayAnd(
      0,
      resources.length,
      modes.map((mode) => resources.map((_, r) => asked(mode, r, true))),
    ),
    HOLDS: holds.length,
    HOLD_ACTIVITY: holds.map(({ activity }) => activity + 1),
    HOLD_RESOURCE: holds.map(({ resource }) => resource + 1),
    HOLD_AMOUNT: holds.map(({ amount }) => amount),
    HOLD_LAG: rows(
      ends('lag').flatMap(([h, activity, end]) => functions.byMode(h, activity, end.fns, false)),
      3,
    ),
    HOLD_UNTIL: rows(
      ends('activity').map(([h, , end]) => [h, end.activity + 1, end.anchor === 'finish' ? 1 : 0]),
      3,
    ),
    STOCKS: stocks.length,
    TOTAL: stocks.map(({ total }) => total),
    CONSUMES: byWayAnd(
      0,
      stocks.length,
      modes.map(({ consumes }) =>
        stocks.map((_, k) =>
          consumes.reduce((sum, { stock, amount }) => sum + (stock === k ? amount : 0), 0),
        ),
      ),
    ),
  };
}
