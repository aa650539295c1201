import { Prisma } from './generated/client.ts';

/** Below PostgreSQL's 65,535 parameters a statement for every table here. */
const rowsPerStatement = 1000;

/** Inserts `rows` in their order, in as many statements as needed. */
export async function insert<Row>(
  table: { createMany(args: { data: Row[] }): PromiseLike<unknown> },
  rows: readonly Row[],
): Promise<void> {
  for (let from = 0; from < rows.length; from += rowsPerStatement) {
    await table.createMany({ data: rows.slice(from, from + rowsPerStatement) });
  }
}

/** Takes what a mapper left of a record: a field that is added and not stored does not compile. */
export const nothingLeft = (_rest: Readonly<Record<string, never>>): void => undefined;

/** A plain value as Prisma takes JSON: `undefined` and prototypes are gone. */
export const asJson = (value: unknown): Prisma.InputJsonValue =>
  JSON.parse(JSON.stringify(value)) as Prisma.InputJsonValue;

/** A list kept as a document, or null where there is none. */
export const asJsonOrNull = (value: unknown): Prisma.InputJsonValue | typeof Prisma.DbNull =>
  value === null ? Prisma.DbNull : asJson(value);

/** `HH:MM` as minutes of the day, 0 to 1439. */
export const minuteOf = (wallTime: string): number =>
  Number(wallTime.slice(0, 2)) * 60 + Number(wallTime.slice(3, 5));

export const wallTimeOf = (minute: number): string => {
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
};

/** ISO in UTC, without fractions where there are none. */
export const isoOf = (at: Date): string => at.toISOString().replace('.000Z', 'Z');

/** An instant with any offset, in UTC. */
export const utcOf = (at: string): string => isoOf(new Date(at));

export const dateOf = (date: string): Date => new Date(`${date}T00:00:00Z`);
export const isoDateOf = (at: Date): string => at.toISOString().slice(0, 10);

const byPosition = { position: 'asc' } as const;
/** In the order given at insertion. */
export const inOrder = { orderBy: byPosition } as const;
