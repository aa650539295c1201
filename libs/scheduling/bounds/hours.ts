import type { Calendar, Problem } from '../model/problem.ts';
import {
  flatten,
  intersect,
  spansOf,
  subtract,
  type Spans,
} from '../search/crew/compiled/spans.ts';

/** Time as a flat, sorted list of start, end pairs. */
export type Flat = readonly number[];

/** Spans that a piece of work has to lie in one of, and working minutes. */
export interface Hours {
  readonly shifts: Flat;
  readonly work: Flat;
}

/** The time in either list; spans that touch are joined. */
export function union(a: Flat, b: Flat): number[] {
  const pairs: [number, number][] = [];
  for (const list of [a, b])
    for (let i = 0; i < list.length; i += 2) pairs.push([list[i], list[i + 1]]);
  pairs.sort((x, y) => x[0] - y[0]);
  const joined: number[] = [];
  for (const [start, end] of pairs)
    if (joined.length > 0 && joined[joined.length - 1] >= start)
      joined[joined.length - 1] = Math.max(joined[joined.length - 1], end);
    else joined.push(start, end);
  return joined;
}

/** A calendar's shifts and working time, with or without its overtime. */
export function hoursOf(calendar: Calendar, overtime: boolean): Hours {
  const regular = flatten(calendar.shifts);
  const shifts = overtime ? union(regular, flatten(calendar.overtime)) : regular;
  return { shifts, work: subtract(shifts, flatten(calendar.breaks)) };
}

/** When a resource has at least so much. */
export function enough(problem: Problem, resource: number, amount: number): number[] {
  const { steps } = problem.resources[resource];
  const flat: number[] = [];
  steps.forEach(({ from, capacity }, i) => {
    const end = i + 1 < steps.length ? steps[i + 1].from : problem.horizon;
    if (capacity >= amount && from < end) flat.push(from, end);
  });
  return flat;
}

/** What all of some lists have in common, within [0, horizon). */
export const shared = (problem: Problem, lists: readonly Flat[]): number[] =>
  lists.reduce<number[]>((all, list) => intersect(all, list), [0, problem.horizon]);

export const indexed = (problem: Problem, flat: Flat): Spans => spansOf(flat, problem.horizon);
