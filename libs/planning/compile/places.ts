import type { Resource, Space } from '#scheduling/model/problem.ts';
import type { Yard } from '../yard/yard.ts';

/** Spaces, and what is in short supply: room for people in each, and tools. */
export interface Places {
  readonly spaces: readonly Space[];
  readonly resources: readonly Resource[];
  readonly spaceIndex: ReadonlyMap<string, number>;
  /** Resource index of a space's room. */
  readonly roomOf: ReadonlyMap<string, number>;
  readonly toolOf: ReadonlyMap<string, number>;
}

export function placesOf(yard: Yard): Places {
  const spaceIndex = new Map(yard.spaces.map(({ id }, k) => [id, k]));
  const rooms = yard.spaces.map(({ id, room }): Resource => ({
    id: `room:${id}`,
    steps: [{ from: 0, capacity: room }],
    source: `space:${id}`,
  }));
  const tools = yard.tools.map(({ id, count }): Resource => ({
    id: `tool:${id}`,
    steps: [{ from: 0, capacity: count }],
    source: `tool:${id}`,
  }));
  return {
    spaces: yard.spaces.map(({ id, dustReaches, settlingMinutes }) => ({
      id,
      dustReaches: dustReaches.flatMap((other) => spaceIndex.get(other) ?? []),
      settling: settlingMinutes,
      source: `space:${id}`,
    })),
    resources: [...rooms, ...tools],
    spaceIndex,
    roomOf: new Map(yard.spaces.map(({ id }, k) => [id, k])),
    toolOf: new Map(yard.tools.map(({ id }, k) => [id, rooms.length + k])),
  };
}
