import { type ExecutionResult, GraphQLError } from 'graphql';
import { type Report, report } from '../errors/report.ts';

/** What a resolver threw, with the same code, cure and faults as REST; no stack, no inner error. */
export function graphqlError(thrown: unknown): GraphQLError {
  const told = report(thrown);
  return new GraphQLError(told.detail, { extensions: extensionsOf(told) });
}

/** Mercurius' last word on each answer: what did not pass a resolver is brought into the same form. */
export function formatErrors(execution: ExecutionResult): {
  statusCode: number;
  response: ExecutionResult;
} {
  const thrown = execution.errors ?? [];
  const errors = thrown.flatMap(unfolded).map(inForm);
  return { statusCode: statusOf(thrown), response: { data: execution.data ?? null, errors } };
}

/** What never was a query (a form, a body too large) keeps Fastify's status; all else is answered with 200. */
function statusOf([first]: readonly GraphQLError[]): number {
  const original: unknown = first.originalError;
  if (!(original instanceof Error) || !('code' in original && 'statusCode' in original)) return 200;
  const isFastifys = String(original.code).startsWith('FST_');
  return isFastifys && typeof original.statusCode === 'number' ? original.statusCode : 200;
}

/** A query that does not fit the schema comes as one error that carries the list. */
function unfolded(error: GraphQLError): GraphQLError[] {
  const inner: unknown = error.originalError && Reflect.get(error.originalError, 'errors');
  if (!Array.isArray(inner)) return [error];
  return inner.map((item: unknown) =>
    item instanceof GraphQLError
      ? item
      : new GraphQLError(item instanceof Error ? item.message : String(item)),
  );
}

function inForm(error: GraphQLError): GraphQLError {
  if ('cure' in error.extensions) return error;
  const told = error.originalError ? report(error.originalError) : ofQuery(error);
  return new GraphQLError(told.detail, {
    nodes: error.nodes ?? null,
    source: error.source,
    positions: error.positions,
    path: error.path,
    extensions: extensionsOf(told),
  });
}

function extensionsOf({ code, title, cure, faults }: Report): Record<string, unknown> {
  return { code, title, cure, faults };
}

/** No error of ours is inside: the query itself is at fault. */
function ofQuery(error: GraphQLError): Report {
  return {
    status: 400,
    code: 'input.malformed',
    title: 'The query cannot be read',
    detail: error.message,
    cure: 'Correct the query; the schema is in apps/api/schema.graphql.',
    faults: [],
  };
}
