import { type ExecutionResult, GraphQLError } from 'graphql';
import { catalogue } from '#kernel/codes.ts';
import { DomainError } from '#kernel/error.ts';
import { type Report, report } from '../errors/report.ts';
import { Throttled } from '../limits/throttled.ts';

/** What a resolver threw, with the same code, cure and faults as REST; no stack, no inner error. */
export function graphqlError(thrown: unknown): GraphQLError {
  const told = report(thrown);
  return new GraphQLError(told.detail, { extensions: extensionsOf(told) });
}

interface Formatted {
  readonly statusCode: number;
  readonly response: ExecutionResult;
}

interface Answering {
  /** The schema may be told. */
  readonly introspection: boolean;
  /** Where the answer goes, over HTTP. */
  readonly reply?: { header(name: string, value: unknown): unknown };
}

/** Mercurius' last word on each answer: what did not pass a resolver is brought into the same form. */
export function formatErrors(
  execution: ExecutionResult,
  { introspection, reply }: Answering,
): Formatted {
  const thrown = execution.errors ?? [];
  const errors = thrown.flatMap(unfolded).map((error) => inForm(error, introspection));
  const waits = errors.map(({ extensions }) => Number(extensions['retryAfter'] ?? 0));
  const longest = Math.max(...waits);
  if (longest > 0) reply?.header('retry-after', longest);
  return { statusCode: statusOf(thrown), response: { data: execution.data ?? null, errors } };
}

/**
 * What never was a query (a form, a body too large) keeps Fastify's status, and one too many its
 * own; all else is answered with 200.
 */
function statusOf([first]: readonly GraphQLError[]): number {
  const original: unknown = first.originalError;
  if (original instanceof Throttled) return 429;
  if (!(original instanceof Error) || !('code' in original && 'statusCode' in original)) return 200;
  const isFastifys = String(original.code).startsWith('FST_');
  return isFastifys && typeof original.statusCode === 'number' ? original.statusCode : 200;
}

/** A query that does not fit the schema comes as one error that carries the list. */
function unfolded(error: GraphQLError): GraphQLError[] {
  const inner: unknown = error.originalError && Reflect.get(error.originalError, 'errors');
  if (!Array.isArray(inner)) return [error];
  return inner.map((item: unknown) => (item instanceof GraphQLError ? item : ofBody()));
}

/** The body was no request of GraphQL: what Fastify's validator says of it is not passed on. */
function ofBody(): GraphQLError {
  const words = 'The request is not one of GraphQL over HTTP.';
  const cure = 'Send { "query": "…", "variables": {…} }; mutations by POST.';
  return graphqlError(new DomainError('input.malformed', words, { cure }));
}

function inForm(error: GraphQLError, introspection: boolean): GraphQLError {
  if ('cure' in error.extensions) return error;
  const told = isOfQuery(error)
    ? ofQuery(error, introspection)
    : report(error.originalError ?? error);
  return new GraphQLError(told.detail, {
    nodes: error.nodes ?? null,
    source: error.source,
    positions: error.positions,
    path: error.path,
    extensions: extensionsOf(told),
  });
}

/**
 * The query or its variables are at fault where it was never run; and where a value of its
 * arguments turned out wrong as it ran, which names the place in the query. An answer that its
 * type cannot hold names none: that is ours.
 */
function isOfQuery({ originalError, path }: GraphQLError): boolean {
  if (originalError === undefined) return path === undefined;
  if (!(originalError instanceof GraphQLError)) return false;
  return path === undefined || originalError.nodes !== undefined;
}

function extensionsOf({ code, title, cure, faults, retryAfter }: Report): Record<string, unknown> {
  return { code, title, cure, faults, ...(retryAfter === undefined ? {} : { retryAfter }) };
}

const tooLong = /^Syntax Error: Document contains more \w+ (\d+) tokens/;

/** Names that nearly fit would tell the schema bit by bit; those of variables no option hides. */
const suggestion = / Did you mean .*\?$/;

function ofQuery({ message }: GraphQLError, introspection: boolean): Report {
  const most = tooLong.exec(message)?.[1];
  if (most !== undefined) {
    const detail = `The query is longer than ${most} words and signs.`;
    return { status: 422, code: 'input.limit', ...catalogue['input.limit'], detail, faults: [] };
  }
  return {
    status: 400,
    code: 'input.malformed',
    title: 'The query cannot be read',
    detail: introspection ? message : message.replace(suggestion, ''),
    cure: 'Correct the query; the schema is in apps/api/schema.graphql.',
    faults: [],
  };
}
