import {
  observationSchema,
  readingSchema,
  type Observation,
  type Reading,
} from '#planning/yard/observed.ts';
import type { Transaction } from '../client.ts';
import type {
  Observation as ObservationRow,
  Prisma,
  Reading as ReadingRow,
} from '../generated/client.ts';
import { inOrder, insert, isoOf, nothingLeft } from '../rows.ts';

function readingRow(
  yardId: string,
  { id, space, of, at, minutes, celsius, humidity, note, ...rest }: Reading,
): Prisma.ReadingCreateManyInput {
  nothingLeft(rest);
  return { yardId, id, spaceId: space, of, at: new Date(at), minutes, celsius, humidity, note };
}

export const toReading = (row: ReadingRow): Reading =>
  readingSchema.parse({
    id: row.id,
    space: row.spaceId,
    of: row.of,
    at: isoOf(row.at),
    minutes: row.minutes,
    celsius: row.celsius,
    humidity: row.humidity,
    note: row.note,
  } satisfies Record<keyof Reading, unknown>);

/**
 * Two that overlap are refused (`reading_overlap`). In one statement, as a document: ten thousand
 * readings are ninety thousand parameters otherwise.
 */
export async function saveReadings(
  tx: Transaction,
  yardId: string,
  readings: readonly Reading[],
): Promise<void> {
  const rows = JSON.stringify(readings.map((reading) => readingRow(yardId, reading)));
  await tx.$executeRaw`
    INSERT INTO reading (yard_id, id, space_id, "of", at, minutes, celsius, humidity, note)
    SELECT "yardId", id, "spaceId", "of", at, minutes, celsius, humidity, note
    FROM jsonb_to_recordset(${rows}::jsonb) AS told
      ("yardId" text, id text, "spaceId" text, "of" text, at timestamptz, minutes int,
       celsius float8, humidity float8, note text)`;
}

export async function loadReadings(tx: Transaction, yardId: string): Promise<Reading[]> {
  const rows = await tx.reading.findMany({ where: { yardId }, ...inOrder });
  return rows.map(toReading);
}

export function observationRow(
  yardId: string,
  {
    id,
    material,
    milestone,
    found,
    space,
    laidAt,
    at,
    grams,
    hardenerPercent,
    note,
    ...rest
  }: Observation,
): Prisma.ObservationCreateManyInput {
  nothingLeft(rest);
  return {
    yardId,
    id,
    materialId: material,
    milestone,
    found,
    spaceId: space,
    laidAt: new Date(laidAt),
    at: new Date(at),
    grams,
    hardenerPercent,
    note,
  };
}

export const toObservation = (row: ObservationRow): Observation =>
  observationSchema.parse({
    id: row.id,
    material: row.materialId,
    milestone: row.milestone,
    found: row.found,
    space: row.spaceId,
    laidAt: isoOf(row.laidAt),
    at: isoOf(row.at),
    grams: row.grams,
    hardenerPercent: row.hardenerPercent,
    note: row.note,
  } satisfies Record<keyof Observation, unknown>);

export async function saveObservations(
  tx: Transaction,
  yardId: string,
  observations: readonly Observation[],
): Promise<void> {
  await insert(
    tx.observation,
    observations.map((observation) => observationRow(yardId, observation)),
  );
}

export async function loadObservations(tx: Transaction, yardId: string): Promise<Observation[]> {
  const rows = await tx.observation.findMany({ where: { yardId }, ...inOrder });
  return rows.map(toObservation);
}
