import type { Calendar, Interval, Mode, Problem } from '../../../model/problem.ts';
import { flatten, intersect, spansOf, subtract, type Spans } from '../../crew/compiled/spans.ts';

/** Time as a flat, sorted list of start, end pairs. */
export type Flat = readonly number[];

/** Shared time of a crew and of the calendars of resources, made once for each set of calendars. */
export interface Hours {
  /** The minutes in which work that may pause goes on; null: it never pauses. */
  working(mode: Mode, builders: readonly number[], overtime: boolean): Spans | null;
  /** The spans of which one has to hold work in one piece; null: any time will do. */
  shifts(mode: Mode, builders: readonly number[], overtime: boolean): Spans | null;
}

function joined(spans: readonly Interval[]): number[] {
  const all: number[] = [];
  for (const { start, end } of [...spans].sort((a, b) => a.start - b.start)) {
    const last = all.length - 1;
    if (last > 0 && all[last] >= start) all[last] = Math.max(all[last], end);
    else all.push(start, end);
  }
  return all;
}

/** Spans of two lists as one flat list; those that meet are joined. */
export const union = (one: readonly Interval[], other: readonly Interval[]): number[] =>
  joined([...one, ...other]);

const shiftsOf = ({ shifts, overtime }: Calendar, extended: boolean): number[] =>
  extended ? joined([...shifts, ...overtime]) : flatten(shifts);

export function hoursOf(problem: Problem): Hours {
  const { calendars, builders: people, resources, horizon } = problem;
  const known = new Map<string, Spans | null>();
  const shared = (
    mode: Mode,
    builders: readonly number[],
    overtime: boolean,
    observed: boolean,
  ): Spans | null => {
    const own = [...new Set(builders.map((b) => people[b].calendar))].sort((a, b) => a - b);
    const tools = [
      ...new Set(
        mode.demands.flatMap(({ resource, amount }) => {
          const { calendar } = resources[resource];
          return amount > 0 && calendar !== null ? [calendar] : [];
        }),
      ),
    ].sort((a, b) => a - b);
    const key = [own.join(), tools.join(), overtime, observed].join(';');
    const made = known.get(key);
    if (made !== undefined) return made;
    const lists: Flat[] = [
      ...own.map((c) => {
        const all = shiftsOf(calendars[c], overtime);
        return observed ? subtract(all, flatten(calendars[c].breaks)) : all;
      }),
      ...tools.map((c) => subtract(flatten(calendars[c].shifts), flatten(calendars[c].breaks))),
    ];
    const spans =
      lists.length === 0
        ? null
        : spansOf(
            lists.reduce<number[]>((all, list) => intersect(all, list), [0, horizon]),
            horizon,
          );
    known.set(key, spans);
    return spans;
  };
  return {
    working: (mode, builders, overtime) => shared(mode, builders, overtime, true),
    shifts: (mode, builders, overtime) =>
      shared(mode, builders, overtime, mode.breaks === 'observed'),
  };
}

const flatOf = ({ count, starts, ends }: Spans): number[] =>
  Array.from({ length: count }, (_, i) => [starts[i], ends[i]]).flat();

const EVER: object = {};
const gapsKnown = new WeakMap<Spans, WeakMap<object, number>>();

/** The longest stretch within `inside` (null: all time) that has no minute of `hours`. */
export function longestGap(hours: Spans, inside: Spans | null, horizon: number): number {
  const known = gapsKnown.get(hours) ?? new WeakMap<object, number>();
  gapsKnown.set(hours, known);
  const gap = known.get(inside ?? EVER) ?? measuredGap(hours, inside, horizon);
  known.set(inside ?? EVER, gap);
  return gap;
}

function measuredGap(hours: Spans, inside: Spans | null, horizon: number): number {
  const all = inside === null ? [0, horizon] : flatOf(inside);
  const gaps = subtract(all, flatOf(hours));
  let longest = 0;
  for (let i = 0; i < gaps.length; i += 2) longest = Math.max(longest, gaps[i + 1] - gaps[i]);
  return longest;
}

/** The hours with so many minutes after each span. */
export function lengthened(hours: Spans, minutes: number, horizon: number): Spans {
  const flat = flatOf(hours).map((t, i) => (i % 2 === 0 ? t : t + minutes));
  return spansOf(flat, horizon + minutes);
}
