import { DomainError, fault } from '#kernel/error.ts';
import type { Page, PageRequest } from './page.ts';

/** A row of a list that is read from its newest end. */
interface Dated {
  readonly createdAt: Date;
  readonly id: string;
}

interface Older {
  OR?: [{ createdAt: { lt: Date } }, { createdAt: Date; id: { lt: string } }];
}

/** Arguments for Prisma: newest first, and one row more than asked for. */
export function newestArgs({ first, after }: PageRequest): {
  take: number;
  orderBy: [{ createdAt: 'desc' }, { id: 'desc' }];
  where: Older;
} {
  return {
    take: first + 1,
    orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
    where: after === undefined ? {} : olderThan(after),
  };
}

export function toNewestPage<Row extends Dated, T>(
  rows: readonly Row[],
  { first }: PageRequest,
  show: (row: Row) => T,
): Page<T> {
  const shown = rows.slice(0, first);
  const last = shown.at(-1);
  const nextCursor = rows.length > first && last ? cursorOf(last) : null;
  return { items: shown.map(show), nextCursor };
}

const cursorOf = ({ createdAt, id }: Dated): string =>
  Buffer.from(`t${String(createdAt.getTime())}:${id}`).toString('base64url');

function olderThan(cursor: string): Older {
  const text = Buffer.from(cursor, 'base64url').toString();
  const found = /^t(\d{1,15}):([0-9a-f-]{36})$/.exec(text);
  if (found) {
    const [, time, id] = found;
    const createdAt = new Date(Number(time));
    return { OR: [{ createdAt: { lt: createdAt } }, { createdAt, id: { lt: id } }] };
  }
  const wrong = fault('input.field', 'after', 'not a cursor of this list', {
    value: cursor,
    cure: 'Use the nextCursor of the page before, or leave it out.',
  });
  throw new DomainError('input.field', `after: ${wrong.message}`, { faults: [wrong] });
}
