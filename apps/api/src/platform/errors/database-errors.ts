import { DomainError } from '#kernel/error.ts';
import { Prisma } from '#persistence/generated/client.ts';
import { refusalOf } from '#persistence/refusal.ts';

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
  if (isBusy(thrown)) return new DomainError('service.unavailable');
  return isUnstorable(thrown)
    ? new DomainError('input.malformed', 'Text may not hold the character NUL.')
    : undefined;
}

/** 22021: PostgreSQL's text cannot hold U+0000, which JSON and addresses can. */
function isUnstorable(thrown: unknown): boolean {
  if (!(thrown instanceof Prisma.PrismaClientKnownRequestError)) return false;
  const inner = thrown.meta?.['driverAdapterError'];
  const cause: unknown = inner instanceof Error ? inner.cause : undefined;
  return (
    typeof cause === 'object' && cause !== null && Reflect.get(cause, 'originalCode') === '22021'
  );
}

/** P2024: no free connection in time; P2028: no transaction in time; P2034: lost to others too often. */
function isBusy(thrown: unknown): boolean {
  return (
    thrown instanceof Prisma.PrismaClientKnownRequestError &&
    ['P2024', 'P2028', 'P2034'].includes(thrown.code)
  );
}
