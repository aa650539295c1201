import { z } from 'zod';
import { DomainError, fault } from '#kernel/error.ts';
import { outputShape, type Shape } from '../shapes/shape.ts';

/** A list is read in pages: the first so many after a cursor, which only the service understands. */
export const pageQuerySchema = z.strictObject({
  first: z.coerce.number().int().min(1).max(200).default(50),
  after: z.string().max(300).optional(),
});

export type PageRequest = z.output<typeof pageQuerySchema>;

export interface Page<T> {
  readonly items: readonly T[];
  /** Null on the last page. */
  readonly nextCursor: string | null;
}

/** The shape of one page of `item`s, named `<Item>Page`. */
export function pageShape<S extends z.ZodObject>(
  item: Shape<S>,
): Shape<z.ZodObject<{ items: z.ZodArray<S>; nextCursor: z.ZodNullable<z.ZodString> }>> {
  return outputShape(
    `${item.name}Page`,
    z.object({ items: z.array(item.schema), nextCursor: z.string().nullable() }),
  );
}

interface Placed {
  readonly position: number;
}

/** Arguments for Prisma: one row more than asked for tells whether there is a next page. */
export function pageArgs({ first, after }: PageRequest): {
  take: number;
  orderBy: { position: 'asc' };
  where: { position?: { gt: number } };
} {
  const where = after === undefined ? {} : { position: { gt: positionOf(after) } };
  return { take: first + 1, orderBy: { position: 'asc' }, where };
}

export function toPage<Row extends Placed, T>(
  rows: readonly Row[],
  { first }: PageRequest,
  show: (row: Row) => T,
): Page<T> {
  const shown = rows.slice(0, first);
  const last = shown.at(-1);
  const nextCursor = rows.length > first && last ? cursorOf(last.position) : null;
  return { items: shown.map(show), nextCursor };
}

function cursorOf(position: number): string {
  return Buffer.from(`p${String(position)}`).toString('base64url');
}

function positionOf(cursor: string): number {
  const digits = /^p(\d{1,9})$/.exec(Buffer.from(cursor, 'base64url').toString())?.[1];
  if (digits !== undefined) return Number(digits);
  const wrong = fault('input.field', 'after', 'not a cursor of this list', {
    value: cursor,
    cure: 'Use the nextCursor of the page before, or leave it out.',
  });
  throw new DomainError('input.field', `after: ${wrong.message}`, { faults: [wrong] });
}
