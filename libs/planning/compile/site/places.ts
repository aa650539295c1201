import type { Barrier, Calendar, Resource, Space } from '#scheduling/model/problem.ts';
import type { Hours } from '../../yard/spaces.ts';
import type { Yard } from '../../yard/yard.ts';
import { capacitySteps, hoursCalendar } from '../frame/hours.ts';
import type { Frame } from '../frame/time.ts';

/** Spaces, and what is in short supply: room for people in each, and tools. */
export interface Places {
  readonly spaces: readonly Space[];
  readonly barriers: readonly Barrier[];
  readonly resources: readonly Resource[];
  /** Of resources that have hours; they come after the builders' calendars. */
  readonly calendars: readonly Calendar[];
  readonly spaceIndex: ReadonlyMap<string, number>;
  readonly barrierIndex: ReadonlyMap<string, number>;
  /** Resource index of a space's room. */
  readonly roomOf: ReadonlyMap<string, number>;
  readonly toolOf: ReadonlyMap<string, number>;
}

/** The most there ever is of a resource. */
export const mostOf = ({ steps }: Resource): number =>
  Math.max(...steps.map(({ capacity }) => capacity));

function spacesOf(yard: Yard, spaceIndex: ReadonlyMap<string, number>): Space[] {
  const barrier = (from: string, to: string): number | null => {
    const found = yard.barriers.findIndex(({ blocks }) =>
      blocks.some((way) => way.from === from && way.to === to),
    );
    return found < 0 ? null : found;
  };
  return yard.spaces.map(({ id, dustReaches, settlingMinutes }) => ({
    id,
    dustReaches: [...new Set(dustReaches)].flatMap((other) => {
      const space = spaceIndex.get(other);
      return space === undefined ? [] : [{ space, barrier: barrier(id, other) }];
    }),
    settling: settlingMinutes,
    source: `space:${id}`,
  }));
}

/** `firstCalendar` is the index that the first calendar of a resource gets. */
export function placesOf(yard: Yard, frame: Frame, firstCalendar: number): Places {
  const spaceIndex = new Map(yard.spaces.map(({ id }, k) => [id, k]));
  const calendars: Calendar[] = [];
  const calendarOf = (source: string, hours: readonly Hours[] | null): number | null => {
    if (hours === null) return null;
    calendars.push(hoursCalendar(source, hours, frame, source));
    return firstCalendar + calendars.length - 1;
  };
  const rooms = yard.spaces.map(({ id, room, taken, hours }): Resource => ({
    id: `room:${id}`,
    steps: capacitySteps(room, taken, frame),
    calendar: calendarOf(`space-hours:${id}`, hours),
    source: `space:${id}`,
  }));
  const tools = yard.tools.map(({ id, count, away, hours }): Resource => ({
    id: `tool:${id}`,
    steps: capacitySteps(count, away, frame),
    calendar: calendarOf(`tool-hours:${id}`, hours),
    source: `tool:${id}`,
  }));
  return {
    spaces: spacesOf(yard, spaceIndex),
    barriers: yard.barriers.map(({ id, closed }) => ({ id, closed, source: `barrier:${id}` })),
    resources: [...rooms, ...tools],
    calendars,
    spaceIndex,
    barrierIndex: new Map(yard.barriers.map(({ id }, k) => [id, k])),
    roomOf: new Map(yard.spaces.map(({ id }, k) => [id, k])),
    toolOf: new Map(yard.tools.map(({ id }, k) => [id, rooms.length + k])),
  };
}
