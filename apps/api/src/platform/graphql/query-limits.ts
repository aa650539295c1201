import {
  type DocumentNode,
  getOperationAST,
  getVariableValues,
  type GraphQLError,
  GraphQLError as QueryError,
  type GraphQLSchema,
  OperationTypeNode,
  parse,
  specifiedRules,
  validate,
} from 'graphql';
import { DomainError } from '#kernel/error.ts';
import { assertStorable } from '../http/storable.ts';
import { type Cost, costOf } from './query-cost.ts';
import { assertQuerySize, mostTokens } from './query-size.ts';

export const parseOptions = { maxTokens: mostTokens };

/** More would only be said of a query that is nothing but mistakes. */
const mostFaults = 20;

export const validateOptions = (introspection: boolean) => ({
  maxErrors: mostFaults,
  // Names of fields that nearly fit would tell the schema bit by bit.
  hideSuggestions: !introspection,
});

type Variables = Readonly<Record<string, unknown>>;

/** Mercurius would take the parsed form of a query in JSON for one, unread. */
export function assertIsText(source: unknown): void {
  if (typeof source === 'string' && !isJson(source)) return;
  throw new DomainError('input.malformed', 'The query is not text in the language of GraphQL.', {
    cure: 'Send the query as text, e.g. { me { name } }.',
  });
}

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

/** Once its parts are known to fit the schema: what it may give, with these variables. */
export function assertCost(
  schema: GraphQLSchema,
  document: DocumentNode,
  variables: unknown,
): Cost {
  assertStorable(variables, 'variables');
  return costOf(schema, document, isVariables(variables) ? variables : {});
}

function isVariables(value: unknown): value is Variables {
  return typeof value === 'object' && value !== null;
}

interface Operation {
  readonly query: string;
  readonly variables?: Variables | null | undefined;
  readonly operationName?: string | null | undefined;
}

/**
 * All that mercurius judges of a query over HTTP and does not of one over a socket. Gives what is
 * wrong with the query by the schema; throws what is too much.
 */
export function subscriptionFaults(
  schema: GraphQLSchema,
  { query, variables, operationName }: Operation,
  introspection: boolean,
): readonly GraphQLError[] {
  assertIsText(query);
  let document: DocumentNode;
  try {
    document = parse(query, parseOptions);
  } catch (error) {
    if (error instanceof QueryError) return [error];
    throw error;
  }
  assertQuerySize(document, introspection);
  const faults = validate(schema, document, specifiedRules, validateOptions(introspection));
  if (faults.length > 0) return faults;
  const operation = getOperationAST(document, operationName);
  if (operation?.operation !== OperationTypeNode.SUBSCRIPTION) {
    throw new DomainError('input.malformed', 'There is no such subscription in the query.', {
      cure: 'Name one subscription of it; send queries and mutations over HTTP.',
    });
  }
  assertCost(schema, document, variables);
  const definitions = operation.variableDefinitions ?? [];
  return getVariableValues(schema, definitions, variables ?? {}).errors ?? [];
}
