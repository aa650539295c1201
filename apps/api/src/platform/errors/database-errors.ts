import { isDriverAdapterError } from '@prisma/driver-adapter-utils';
import { DomainError } from '#kernel/error.ts';
import { isLost } from '#persistence/connection.ts';
import { Prisma } from '#persistence/generated/client.ts';
import { refusalOf, sqlStateOf } from '#persistence/refusal.ts';

/** What callers may cause in the database; anything else is a fault of ours and told as such. */
export function databaseError(thrown: unknown): DomainError | undefined {
  const refusal = refusalOf(thrown);
  switch (refusal?.kind) {
    case 'unique':
      return new DomainError('record.exists');
    case 'reference':
      return new DomainError('yard.reference');
    case 'exclusion':
      return new DomainError(
        refusal.constraint === 'reading_overlap' ? 'cure.reading' : 'yard.shifts-overlap',
      );
    default:
      break;
  }
  const state = sqlStateOf(thrown) ?? '';
  if (isBusy(thrown) || isLost(thrown) || unavailable.has(state))
    return new DomainError('service.unavailable');
  if (state === noSuchYard) return new DomainError('record.missing', 'There is no such yard.');
  return unstorable.has(state)
    ? new DomainError('input.field', 'A text holds a character that cannot be kept.', {
        cure: 'Take U+0000 and halves of surrogate pairs out of the text.',
      })
    : undefined;
}

/** Raised where a transaction enters a yard that its account has no part in. */
const noSuchYard = 'CW404';

/** U+0000 in text, and in JSON: found before (`storable.ts`) unless a new way in forgot to look. */
const unstorable: ReadonlySet<string> = new Set(['22021', '22P05']);

/** PostgreSQL's manual, appendix A: a statement or a lock took too long, or there is no server. */
const unavailable: ReadonlySet<string> = new Set([
  '57014',
  '55P03',
  '25P03',
  '25P04',
  '57P01',
  '57P02',
  '57P03',
  '53300',
  '08000',
  '08001',
  '08003',
  '08004',
  '08006',
]);

/** No connection, none free in time, no transaction in time, or it lost to others too often. */
const busy: ReadonlySet<string> = new Set([
  'P1001',
  'P1002',
  'P1008',
  'P1017',
  'P2024',
  'P2028',
  'P2034',
]);

/** The same, as the driver's adapter says it of a statement that Prisma did not write. */
const gone: ReadonlySet<unknown> = new Set([
  'DatabaseNotReachable',
  'ConnectionClosed',
  'SocketTimeout',
  'TooManyConnections',
]);

function isBusy(thrown: unknown): boolean {
  if (thrown instanceof Prisma.PrismaClientInitializationError) return true;
  const isKnown = thrown instanceof Prisma.PrismaClientKnownRequestError;
  const inner: unknown = isKnown ? thrown.meta?.['driverAdapterError'] : thrown;
  return (
    (isKnown && busy.has(thrown.code)) ||
    (isDriverAdapterError(inner) && gone.has(inner.cause.kind))
  );
}
