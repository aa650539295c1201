import { randomUUID } from 'node:crypto';
import { HttpException, Logger } from '@nestjs/common';
import { catalogue, type ErrorKind } from '#kernel/codes.ts';
import { DomainError, type Fault } from '#kernel/error.ts';
import { databaseError } from './database-errors.ts';

/** What a caller is told of an error, on every face. */
export interface Report {
  readonly status: number;
  readonly code: string;
  readonly title: string;
  readonly detail: string;
  readonly cure: string;
  readonly faults: readonly Fault[];
}

const statuses: Record<ErrorKind, number> = {
  invalid: 422,
  unauthenticated: 401,
  forbidden: 403,
  'not-found': 404,
  conflict: 409,
  stale: 412,
  unconditional: 428,
  unavailable: 503,
};

const log = new Logger('errors');

/** Turns whatever was thrown into what may be told; the unknown is logged under an id and told by it. */
export function report(thrown: unknown): Report {
  const known = domainError(thrown);
  if (known) return ofDomain(known);
  const status = transportStatus(thrown);
  if (status !== undefined && status < 500) return ofTransport(status, thrown);
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

function domainError(thrown: unknown): DomainError | undefined {
  if (thrown instanceof DomainError) return thrown;
  return databaseError(thrown);
}

function ofDomain(error: DomainError): Report {
  return {
    status: error.code === 'input.malformed' ? 400 : statuses[error.kind],
    code: error.code,
    title: catalogue[error.code].title,
    detail: error.message,
    cure: error.cure,
    faults: error.faults,
  };
}

/** Refusals of Nest and Fastify themselves: an unknown address, bad JSON, a body too large. */
function ofTransport(status: number, thrown: unknown): Report {
  const code = status === 404 ? 'record.missing' : 'input.malformed';
  const { title, cure } = catalogue[code];
  const detail = thrown instanceof Error ? thrown.message : title;
  return { status, code, title, detail, cure, faults: [] };
}

function transportStatus(thrown: unknown): number | undefined {
  if (thrown instanceof HttpException) return thrown.getStatus();
  if (!(thrown instanceof Error)) return undefined;
  if ('statusCode' in thrown && typeof thrown.statusCode === 'number') return thrown.statusCode;
  return undefined;
}
