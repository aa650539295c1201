import type { Interval, Mode } from '../../model/problem.ts';
import type { World } from './world.ts';

/** Regular time, and the same with overtime. */
type Both<T> = readonly [regular: T, extended: T];

/** By minute: number of the shift (from 1) that it is in, 0 outside; and 1 where it is worked. */
export interface Hours {
  readonly shift: Uint16Array;
  readonly working: Uint8Array;
}

/** A part's way: from `start` on its way to `to`, there from `finish` on. */
export interface Move extends Interval {
  readonly to: number;
}

/**
 * Who and what is taken, minute by minute: slow and plain, and another method than the
 * checker's, so that the two can find each other's mistakes. Index `lead + m` is minute m.
 */
export interface Ground {
  readonly world: World;
  /** Minutes before minute 0, for work that had begun. */
  readonly lead: number;
  /** By builder. */
  readonly hours: readonly Both<Hours>[];
  /** By resource; null where it is always on. */
  readonly toolHours: readonly (Hours | null)[];
  /** By builder, part and barrier: 1 where taken. */
  readonly busy: readonly Uint8Array[];
  readonly taken: readonly Uint8Array[];
  readonly acted: readonly Uint8Array[];
  /** By barrier: 1 where closed. By part: the space in which work that starts then finds it. */
  readonly closed: readonly Uint8Array[];
  readonly where: readonly Uint8Array[];
  /** By part, in order. */
  readonly moves: readonly Move[][];
  /** By space: 1 where there is dust, or something that dust may not reach. */
  readonly dust: readonly Uint8Array[];
  readonly open: readonly Uint8Array[];
}

/** Work whose people and length are known and whose time is sought. */
export interface Draft {
  readonly mode: Mode;
  readonly builders: readonly number[];
  readonly minutes: number;
  readonly parts: readonly number[];
  readonly overtime: boolean;
  /** Goes by no calendar, in one piece, wherever its parts are. */
  readonly frozen: boolean;
  /** A surface is to stay safe from dust for so long after the finish; null: there is none. */
  readonly film: number | null;
}

export interface Place {
  readonly start: number;
  readonly finish: number;
  readonly segments: readonly Interval[];
}

function hours(
  lead: number,
  horizon: number,
  shifts: readonly Interval[],
  breaks: readonly Interval[],
): Hours {
  const shift = new Uint16Array(lead + horizon);
  const working = new Uint8Array(lead + horizon);
  let number = 0;
  let last = -1;
  for (const { start, end } of shifts) {
    if (start !== last) number++;
    last = end;
    shift.fill(number, lead + start, lead + end);
    working.fill(1, lead + start, lead + end);
  }
  for (const { start, end } of breaks) working.fill(0, lead + start, lead + end);
  return { shift, working };
}

export function ground(world: World): Ground {
  const lead = world.clock.day;
  const blank = (): Uint8Array => new Uint8Array(lead + world.horizon);
  const both = world.calendars.map(({ shifts, breaks, overtime }): Both<Hours> => {
    const all = [...shifts, ...overtime].sort((a, b) => a.start - b.start);
    return [hours(lead, world.horizon, shifts, breaks), hours(lead, world.horizon, all, breaks)];
  });
  return {
    world,
    lead,
    hours: world.builders.map(({ calendar }) => both[calendar]),
    toolHours: world.tools.map((calendar) => (calendar === null ? null : both[calendar][0])),
    busy: world.builders.map(blank),
    taken: world.parts.map(blank),
    acted: world.barriers.map(blank),
    closed: world.barriers.map(({ closed }) => blank().fill(closed ? 1 : 0)),
    where: world.parts.map(({ space }) => blank().fill(space)),
    moves: world.parts.map(() => []),
    dust: world.spaces.map(blank),
    open: world.spaces.map(blank),
  };
}

/** The hours of the resources that it demands. */
export const toolsOf = (g: Ground, { mode }: Draft): Hours[] =>
  mode.demands.flatMap(({ resource }) => g.toolHours[resource] ?? []);
