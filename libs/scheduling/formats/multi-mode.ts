import { plainMode } from '../model/plain.ts';
import type { Mode, Problem } from '../model/problem.ts';
import {
  activity,
  benchmarkProblem,
  constantLag,
  demandsOf,
  resource,
  type Link,
} from './benchmark.ts';
import { numberField, numbersField, setsField, tableField } from './dzn/fields.ts';
import type { Fields } from './dzn/read.ts';
import { malformed } from './text.ts';

const RENEWABLE = 1;
const NON_RENEWABLE = 2;

/**
 * A multi-mode project of PSPLIB (R. Kolisch, A. Sprecher, EJOR 96 (1997) 205-216) as the
 * MiniZinc benchmark collection writes it: tasks that are done in one of their options, finish
 * before their successors start, and share capacities (by period) and totals (over the
 * project). A period is a minute of the problem. Throws `input.malformed`.
 */
export function multiModeProblem(fields: Fields): Problem {
  const { file } = fields;
  const count = numberField(fields, 'n_tasks', 1);
  const options = numberField(fields, 'n_opt', 1);
  const resources = numberField(fields, 'n_res', 0);
  const amount = { least: 0, most: Infinity };
  const capacity = numbersField(fields, 'rcap', resources, amount);
  const types = numbersField(fields, 'rtype', resources, {
    least: RENEWABLE,
    most: NON_RENEWABLE,
  });
  const duration = numbersField(fields, 'dur', options, amount);
  const demand = tableField(fields, 'rreq', resources, options, amount);
  const ofType = (type: number): number[] => [...types.keys()].filter((r) => types[r] === type);
  const renewable = ofType(RENEWABLE);
  const stocks = ofType(NON_RENEWABLE);

  const option = (o: number): Mode =>
    plainMode({
      duration: duration[o],
      demands: demandsOf(renewable.map((r) => demand[r][o])),
      consumes: stocks
        .map((r, stock) => ({ stock, amount: demand[r][o] }))
        .filter((consumption) => consumption.amount > 0),
    });
  const modes = setsField(fields, 'modes', count, { least: 1, most: options }).map((set, i) => {
    if (set.length > 0) return set.map((o) => o - 1);
    throw malformed(
      fields.items.get('modes')?.at ?? { file, line: 1 },
      i + 1,
      `"modes" has no option for task ${String(i + 1)}`,
      'Give each task at least one option.',
    );
  });
  return benchmarkProblem(file, {
    // Any plan can be pressed to the left until something runs at every moment.
    horizon: modes.reduce((sum, set) => sum + Math.max(...set.map((o) => duration[o])), 0),
    resources: renewable.map((r) => resource(file, r, capacity[r], null)),
    stocks: stocks.map((r) => ({
      id: `R${String(r + 1)}`,
      total: capacity[r],
      source: `${file} resource ${String(r + 1)}`,
    })),
    activities: modes.map((set, i) => activity(file, String(i + 1), set.map(option))),
    lags: successorLinks(setsField(fields, 'succ', count, { least: 1, most: count })).map(
      (link, k) => constantLag(file, 1, link, k),
    ),
  });
}

/** Arcs of sets of successors, numbered from 1. */
export const successorLinks = (sets: readonly (readonly number[])[]): Link[] =>
  sets.flatMap((set, from) =>
    set.map((to): Link => ({ from, to: to - 1, lag: 0, anchor: 'finish' })),
  );
