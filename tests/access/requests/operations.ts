import { type GraphQLField, type GraphQLSchema, isInputObjectType, isNonNullType } from 'graphql';
import { z } from 'zod';
import type { Face } from '#access/rule.ts';
import type { JsonSchema, Schemas } from './json-schema.ts';

export const methods = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'] as const;
export type Method = (typeof methods)[number];

export interface Parameter {
  readonly name: string;
  readonly in: 'path' | 'query' | 'header';
  readonly required: boolean;
  readonly schema: JsonSchema;
}

export interface RestOperation {
  readonly kind: 'rest';
  readonly face: Face;
  readonly method: Method;
  /** The whole address, with its parameters in braces. */
  readonly path: string;
  readonly parameters: readonly Parameter[];
  readonly body: JsonSchema | null;
}

export interface GraphqlOperation {
  readonly kind: 'query' | 'mutation' | 'subscription';
  readonly face: Face;
  readonly field: GraphQLField<unknown, unknown>;
}

export type Operation = RestOperation | GraphqlOperation;

const schema = z.custom<JsonSchema>((value) => typeof value === 'object' && value !== null);

const operationSchema = z.object({
  parameters: z
    .array(
      z.object({
        name: z.string(),
        in: z.enum(['path', 'query', 'header']),
        required: z.boolean().default(false),
        schema: schema.default({ type: 'string' }),
      }),
    )
    .default([]),
  // A body that is a picture is left out: its handler says that it is none.
  requestBody: z
    .object({ content: z.object({ 'application/json': z.object({ schema }).optional() }) })
    .optional(),
});

const documentSchema = z.object({
  paths: z.record(z.string(), z.record(z.string(), operationSchema)),
  components: z.object({ schemas: z.record(z.string(), schema) }),
});

const prefix = '/api/v1/';

/** Every operation of an OpenAPI document, and the shapes that they name. */
export function readDocument(json: unknown): { operations: RestOperation[]; schemas: Schemas } {
  const { paths, components } = documentSchema.parse(json);
  const operations = Object.entries(paths).flatMap(([path, byMethod]) =>
    methods.flatMap((method): RestOperation[] => {
      const found = byMethod[method.toLowerCase()] as (typeof byMethod)[string] | undefined;
      if (!found) return [];
      const body = found.requestBody?.content['application/json']?.schema ?? null;
      const face: Face = `${method} ${path.slice(prefix.length)}`;
      return [{ kind: 'rest', face, method, path, parameters: found.parameters, body }];
    }),
  );
  return { operations, schemas: components.schemas };
}

const roots = [
  ['query', 'Query', (schema: GraphQLSchema) => schema.getQueryType()],
  ['mutation', 'Mutation', (schema: GraphQLSchema) => schema.getMutationType()],
  ['subscription', 'Subscription', (schema: GraphQLSchema) => schema.getSubscriptionType()],
] as const;

/** Every field of a schema's roots. */
export function rootFields(schema: GraphQLSchema): GraphqlOperation[] {
  return roots.flatMap(([kind, root, typeOf]) =>
    Object.values(typeOf(schema)?.getFields() ?? {}).map((field): GraphqlOperation => ({
      kind,
      face: `${root}.${field.name}`,
      field,
    })),
  );
}

/** The name of the shape that an operation's argument `input` has, which is the same on both faces. */
export function inputShapeOf({ field }: GraphqlOperation): string | null {
  const type = field.args.find(({ name }) => name === 'input')?.type;
  const plain = isNonNullType(type) ? type.ofType : type;
  return isInputObjectType(plain) ? plain.name : null;
}

/** Whether it only reads, going by how it is called. */
export const isRead = (face: string): boolean => /^(GET |Query\.|Subscription\.)/.test(face);
