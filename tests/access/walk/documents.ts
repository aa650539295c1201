import { readFile } from 'node:fs/promises';
import { buildSchema } from 'graphql';
import type { Operation, RestOperation } from '../requests/operations.ts';
import { readDocument, rootFields } from '../requests/operations.ts';
import type { Schemas } from '../requests/json-schema.ts';
import { send } from '../requests/send.ts';
import type { World } from '../world/make-world.ts';

export interface Documents {
  readonly rest: readonly RestOperation[];
  readonly all: readonly Operation[];
  readonly schemas: Schemas;
}

const schemaFile = new URL('../../../apps/api/schema.graphql', import.meta.url);

/** Every operation of the OpenAPI document that the service hands out, and of the GraphQL schema. */
export async function documentsOf({ app }: World): Promise<Documents> {
  const { text } = await send(app, { method: 'GET', url: '/api/v1/openapi.json', headers: {} });
  const { operations, schemas } = readDocument(JSON.parse(text));
  const fields = rootFields(buildSchema(await readFile(schemaFile, 'utf8')));
  return { rest: operations, all: [...operations, ...fields], schemas };
}
