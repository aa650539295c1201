import { Client, type ClientConfig } from 'pg';

/**
 * What pools are made of, and single connections. A server may let a connection in and end it in one
 * breath, before whoever asked for it can listen to it: the error would end the program. It is told
 * to the next query instead.
 */
export class Connection extends Client {
  constructor(config?: string | ClientConfig) {
    super(config);
    this.on('error', () => undefined);
  }
}

/** Settings of pools in a program that goes on for long. The system's own first look is after hours. */
export const lasting = {
  Client: Connection,
  keepAlive: true,
  keepAliveInitialDelayMillis: 10_000,
} as const;

/** How much longer than the server works on a statement is its answer waited for, ms. */
export const silentMs = 5_000;

const unanswered = 'Query read timeout';

/** As the driver says it, which gives these no code. */
const lost: ReadonlySet<string> = new Set([
  unanswered,
  'Client has encountered a connection error and is not queryable',
  'Client was closed and is not queryable',
  'Connection terminated',
  'Connection terminated unexpectedly',
  'Connection terminated due to connection timeout',
  'timeout exceeded when trying to connect',
  'timeout expired',
]);

/** The server did not answer in time, though it may yet do what it was asked. */
export const isUnanswered = (error: unknown): boolean =>
  error instanceof Error && error.message === unanswered;

/** There was no connection, no longer one, or none that answers. */
export function isLost(error: unknown): boolean {
  return error instanceof Error && (lost.has(error.message) || isLost(error.cause));
}
