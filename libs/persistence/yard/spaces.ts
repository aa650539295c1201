import {
  spaceSchema,
  type Climate,
  type ClimateChange,
  type Outdoor,
  type Space,
} from '#planning/yard/spaces.ts';
import type { Transaction } from '../client.ts';
import type { Prisma } from '../generated/client.ts';
import {
  asJson,
  asJsonOrNull,
  inOrder,
  insert,
  isoOf,
  minuteOf,
  nothingLeft,
  utcOf,
  wallTimeOf,
} from '../rows.ts';
import { absenceColumn, hoursColumn, toAbsences, toHours } from './supply.ts';

export async function saveSpaces(
  tx: Transaction,
  yardId: string,
  spaces: readonly Space[],
): Promise<void> {
  await insert(
    tx.space,
    spaces.map((space) => spaceRow(yardId, space)),
  );
  for (const space of spaces) await saveSpaceDetails(tx, yardId, space);
}

/** The columns of the space itself; set-points and dust are rows of their own. */
export function spaceRow(
  yardId: string,
  {
    id,
    name,
    climate,
    bandC,
    humidity,
    skin,
    changes,
    enclosed,
    room,
    workPercent,
    taken,
    hours,
    settlingMinutes,
    dustReaches: _d,
    ...rest
  }: Space,
): Prisma.SpaceCreateManyInput {
  nothingLeft(rest);
  const outdoors = climate.kind === 'outdoors' ? climate : null;
  return {
    yardId,
    id,
    name,
    room,
    workPercent,
    taken: absenceColumn(taken),
    hours: hoursColumn(hours),
    settlingMinutes,
    climate: climate.kind,
    lagHours: climate.lagHours,
    warmerBy: outdoors?.warmerBy ?? null,
    bandC,
    humidity: asJsonOrNull(humidity),
    skin: asJsonOrNull(skin),
    changes: changesColumn(changes),
    enclosed,
  };
}

const changesColumn = (changes: readonly ClimateChange[]): Prisma.InputJsonValue =>
  asJson(changes.map((one) => ({ ...one, from: utcOf(one.from), to: utcOf(one.to) })));

const documents = spaceSchema.pick({ humidity: true, skin: true, changes: true });

/** Set-points and dust of a space that has none (yet, or after `clearSpaceDetails`). */
export async function saveSpaceDetails(
  tx: Transaction,
  yardId: string,
  { id, climate, dustReaches }: Pick<Space, 'id' | 'climate' | 'dustReaches'>,
): Promise<void> {
  if (climate.kind === 'heated') {
    await insert(
      tx.setPoint,
      climate.setPoints.map(
        ({ weekdays, from, celsius, ...rest }): Prisma.SetPointCreateManyInput => {
          nothingLeft(rest);
          return { yardId, spaceId: id, weekdays, fromMinute: minuteOf(from), celsius };
        },
      ),
    );
  }
  await insert(
    tx.dustReach,
    dustReaches.map((to): Prisma.DustReachCreateManyInput => ({
      yardId,
      fromSpaceId: id,
      toSpaceId: to,
    })),
  );
}

export async function clearSpaceDetails(
  tx: Transaction,
  yardId: string,
  spaceId: string,
): Promise<void> {
  await tx.setPoint.deleteMany({ where: { yardId, spaceId } });
  await tx.dustReach.deleteMany({ where: { yardId, fromSpaceId: spaceId } });
}

export const spaceDetails = {
  setPoints: inOrder,
  dustReaches: inOrder,
} as const satisfies Prisma.SpaceInclude;

export type SpaceRow = Prisma.SpaceGetPayload<{ include: typeof spaceDetails }>;

export const toSpace = (row: SpaceRow): Space => ({
  id: row.id,
  name: row.name,
  climate: toClimate(row),
  bandC: row.bandC,
  ...documents.parse({ humidity: row.humidity, skin: row.skin, changes: row.changes }),
  enclosed: row.enclosed,
  room: row.room,
  workPercent: row.workPercent,
  taken: toAbsences(row.taken),
  hours: toHours(row.hours),
  dustReaches: row.dustReaches.map((reach) => reach.toSpaceId),
  settlingMinutes: row.settlingMinutes,
});

function toClimate({ climate, lagHours, warmerBy, setPoints }: SpaceRow): Climate {
  // Both are set where the kind is `outdoors` (check `space_climate`).
  if (climate === 'outdoors')
    return { kind: climate, lagHours: lagHours ?? 0, warmerBy: warmerBy ?? 0 };
  return {
    kind: climate,
    lagHours: lagHours ?? 0,
    setPoints: setPoints.map((point) => ({
      weekdays: point.weekdays,
      from: wallTimeOf(point.fromMinute),
      celsius: point.celsius,
    })),
  };
}

export async function loadSpaces(tx: Transaction, yardId: string): Promise<Space[]> {
  const rows = await tx.space.findMany({ where: { yardId }, ...inOrder, include: spaceDetails });
  return rows.map(toSpace);
}

/** Imports an hourly table in place of the one before. */
export async function saveOutdoor(
  tx: Transaction,
  yardId: string,
  outdoor: Outdoor,
): Promise<void> {
  const { from, celsius, humidity, source, ...rest } = outdoor;
  nothingLeft(rest);
  const data = { from: new Date(from), celsius, humidity, source };
  await tx.outdoor.upsert({ where: { yardId }, create: { yardId, ...data }, update: data });
}

export async function loadOutdoor(tx: Transaction, yardId: string): Promise<Outdoor | null> {
  const row = await tx.outdoor.findUnique({ where: { yardId } });
  if (row === null) return null;
  const { celsius, humidity, source } = row;
  return { from: isoOf(row.from), celsius, humidity, source };
}
