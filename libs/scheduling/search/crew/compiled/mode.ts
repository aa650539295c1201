import type { Interval, Mode, Problem } from '../../../model/problem.ts';
import {
  crewSource,
  hoursOf,
  speedFor,
  tableCache,
  type CrewList,
  type CrewOption,
} from './crews.ts';
import { spansOf, type Spans, type WorkTable } from './spans.ts';

export interface ResourceUse {
  readonly resource: number;
  readonly amount: number;
  /** Used from start to finish, through pauses. */
  readonly whole: boolean;
}

/** A slot that can still be booked, with its index in the list. */
export interface OpenSlot extends Interval {
  readonly slot: number;
  readonly cost: number;
}

export interface CompiledMode {
  readonly index: number;
  /** Null where nobody is needed: then `minutes` and `table` hold. */
  readonly crews: readonly CrewOption[] | null;
  readonly complete: boolean;
  readonly minutes: number;
  /** The fewest minutes that any crew of the whole yard could take. */
  readonly least: number;
  /** The calendars of its resources, all the time where there are none. */
  readonly table: WorkTable;
  /** Some calendar binds it: a crew's, or a resource's. */
  readonly timed: boolean;
  /** Some calendar binds it, and it may pause. */
  readonly pauses: boolean;
  /** Its pauses are those of its crew alone. */
  readonly ownPauses: boolean;
  readonly relieved: boolean;
  /** Minutes after the finish in which crew and demands stay taken. */
  readonly cleanDown: number;
  readonly forbidden: Spans | null;
  readonly forbiddenFinish: Spans | null;
  readonly uses: readonly ResourceUse[];
  /** Amounts by stock; empty where none is consumed. */
  readonly consumes: readonly number[];
  readonly space: number;
  readonly dusty: boolean;
  readonly wet: boolean;
  /** No dust while it is wet or one of the activity's `surfaces` is open. */
  readonly sensitive: boolean;
  /** -1 where it moves nothing. */
  readonly movesTo: number;
  /** -1 where it acts on none. */
  readonly barrier: number;
  readonly closes: boolean;
  readonly slotList: number;
  /** Null where none is needed. */
  readonly slots: readonly OpenSlot[] | null;
  readonly cost: number;
  /** Forbidden moments or slots say when it may be, besides calendars. */
  readonly bound: boolean;
}

const flat = (list: readonly Interval[]): number[] =>
  list.toSorted((a, b) => a.start - b.start).flatMap((s) => [s.start, s.end]);

function leastMinutes(problem: Problem, mode: Mode): number {
  let speed = 0;
  for (const demand of mode.crew) {
    const speeds = problem.builders
      .map((_, b) => speedFor(problem, b, demand))
      .sort((x, y) => y - x);
    for (let i = 0; i < demand.count; i += 1) speed += speeds[i] ?? 0;
  }
  return speed > 0 ? Math.max(mode.floor, Math.ceil(mode.work / speed)) : mode.floor;
}

function forbidden(problem: Problem, mode: Mode, anchor: 'start' | 'finish'): Spans | null {
  const spans = mode.forbidden.flatMap((one) => (one.anchor === anchor ? one.spans : []));
  return spans.length > 0 ? spansOf(flat(spans), problem.horizon) : null;
}

function consumption(problem: Problem, mode: Mode): number[] {
  if (mode.consumes.every(({ amount }) => amount === 0)) return [];
  const amounts = problem.stocks.map(() => 0);
  for (const { stock, amount } of mode.consumes) amounts[stock] += amount;
  return amounts;
}

function openSlots(problem: Problem, list: number | null): OpenSlot[] | null {
  if (list === null) return null;
  return problem.slotLists[list].slots.flatMap(({ start, end, cost, bookBy }, slot) =>
    bookBy >= problem.now ? [{ slot, start, end, cost }] : [],
  );
}

/** Modes of all activities; `sensitive`: those with surfaces that stay where they are. */
export function compileModes(problem: Problem, sensitive: ReadonlySet<number>): CompiledMode[][] {
  const tablesFor = tableCache(problem);
  const crewsFor = crewSource(problem, tablesFor);
  const lists = new Map<string, CrewList>();
  return problem.activities.map((activity, a) =>
    activity.modes.map((mode, index): CompiledMode => {
      const only = activity.fixed?.kind === 'set' ? activity.fixed.builders : null;
      const manned = mode.crew.length > 0;
      const hours = hoursOf(problem, mode);
      const key = JSON.stringify([mode.crew, mode.work, mode.floor, mode.cleanDown, hours, only]);
      let list = lists.get(key);
      if (manned && activity.fixed?.kind !== 'frozen' && !list) {
        list = crewsFor(mode, only);
        lists.set(key, list);
      }
      const timed = manned || hours.length > 0;
      return {
        index,
        // Work that nobody is needed for cannot have the people that the foreman set.
        crews: manned || (only !== null && only.length > 0) ? (list?.options ?? []) : null,
        complete: list?.complete ?? true,
        minutes: mode.duration,
        least: manned ? leastMinutes(problem, mode) : mode.duration,
        table: tablesFor([], hours, false).table,
        timed,
        pauses: timed && mode.splittable,
        ownPauses: hours.length === 0,
        relieved: mode.breaks === 'relieved',
        cleanDown: mode.cleanDown,
        forbidden: forbidden(problem, mode, 'start'),
        forbiddenFinish: forbidden(problem, mode, 'finish'),
        uses: mode.demands.flatMap(({ resource, amount, keptWhilePaused }) =>
          amount > 0
            ? [{ resource, amount, whole: keptWhilePaused || !(timed && mode.splittable) }]
            : [],
        ),
        consumes: consumption(problem, mode),
        space: mode.space ?? -1,
        dusty: mode.air === 'dusty' && mode.space !== null,
        wet: mode.air === 'wet' && mode.space !== null,
        sensitive: mode.space !== null && (mode.air === 'wet' || sensitive.has(a)),
        movesTo: mode.movesTo ?? -1,
        barrier: mode.barrier?.barrier ?? -1,
        closes: mode.barrier?.closes ?? false,
        slotList: mode.slots ?? -1,
        slots: openSlots(problem, mode.slots),
        cost: mode.cost,
        bound: mode.forbidden.length > 0 || mode.slots !== null,
      };
    }),
  );
}
