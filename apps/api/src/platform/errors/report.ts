import { randomUUID } from 'node:crypto';
import { Logger } from '@nestjs/common';
import { catalogue, type ErrorKind } from '#kernel/codes.ts';
import { DomainError, type Fault } from '#kernel/error.ts';
import { Throttled } from '../limits/throttled.ts';
import { databaseError } from './database-errors.ts';
import { transportRefusal } from './transport.ts';

/** What a caller is told of an error, on every face. */
export interface Report {
  readonly status: number;
  readonly code: string;
  readonly title: string;
  readonly detail: string;
  readonly cure: string;
  readonly faults: readonly Fault[];
  /** Seconds after which the same may be tried again. */
  readonly retryAfter?: number;
}

const statuses: Record<ErrorKind, number> = {
  invalid: 422,
  unauthenticated: 401,
  forbidden: 403,
  'not-found': 404,
  conflict: 409,
  stale: 412,
  unconditional: 428,
  throttled: 429,
  unavailable: 503,
};

const log = new Logger('errors');

/** Turns whatever was thrown into what may be told; the unknown is logged under an id and told by it. */
export function report(thrown: unknown): Report {
  const known = thrown instanceof DomainError ? thrown : databaseError(thrown);
  if (known) return ofDomain(known);
  const refused = transportRefusal(thrown);
  if (refused) return { ...refused, title: catalogue[refused.code].title, faults: [] };
  const id = randomUUID();
  log.error(`${id} ${thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown)}`);
  return {
    status: 500,
    code: 'service.fault',
    title: 'Something went wrong here',
    detail: `The fault is logged as ${id}.`,
    cure: 'Try again; if it stays, tell whoever runs the service this id.',
    faults: [],
  };
}

function ofDomain(error: DomainError): Report {
  return {
    status: error.code === 'input.malformed' ? 400 : statuses[error.kind],
    code: error.code,
    title: catalogue[error.code].title,
    detail: error.message,
    cure: error.cure,
    faults: error.faults,
    ...(error instanceof Throttled ? { retryAfter: error.retryAfterSeconds } : {}),
  };
}
