import { isDriverAdapterError } from '@prisma/driver-adapter-utils';
import { Prisma } from './generated/client.ts';

/** Why the database said no, and the name of the constraint that did. */
export interface Refusal {
  readonly kind: 'unique' | 'reference' | 'check' | 'exclusion' | 'immutable' | 'permission';
  /** As in the migrations, e.g. `claim_one_open`; of a missing permission, the message. */
  readonly constraint: string;
}

interface Cause {
  readonly originalCode?: string;
  readonly originalMessage?: string;
  readonly constraint?: { readonly index?: string };
}

const kinds: Readonly<Partial<Record<string, Refusal['kind']>>> = {
  '23505': 'unique',
  '23503': 'reference',
  '23001': 'reference',
  '23514': 'check',
  '23P01': 'exclusion',
  '42501': 'permission',
};

/**
 * What a failed write ran into; null where the error is of another sort. Prisma reports the
 * constraint in a different place for each kind, and not at all for checks and exclusions,
 * whose names are read from PostgreSQL's message.
 */
export function refusalOf(error: unknown): Refusal | null {
  const cause = causeOf(error);
  const kind = kinds[cause?.originalCode ?? ''];
  if (cause === undefined || kind === undefined) return null;
  const message = cause.originalMessage ?? '';
  const constraint =
    cause.constraint?.index ?? /constraint "([^"]+)"/.exec(message)?.[1] ?? message;
  const immutable = constraint.endsWith('_immutable') || constraint === 'plan_complete';
  return { kind: immutable ? 'immutable' : kind, constraint };
}

/** PostgreSQL's code for a failed statement (appendix A of its manual, and `CW…` of our own). */
export const sqlStateOf = (error: unknown): string | undefined => causeOf(error)?.originalCode;

/** Of a statement that failed, and of a commit that did: that one Prisma passes on as it came. */
function causeOf(error: unknown): Cause | undefined {
  const adapterError =
    error instanceof Prisma.PrismaClientKnownRequestError
      ? error.meta?.['driverAdapterError']
      : isDriverAdapterError(error)
        ? error
        : undefined;
  return adapterError instanceof Error ? (adapterError.cause as Cause | undefined) : undefined;
}
