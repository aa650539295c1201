import { z } from 'zod';
import type { Face } from './graphql-fields.ts';

const registries = {
  input: z.registry<{ id: string }>(),
  output: z.registry<{ id: string }>(),
};

const names = new Set<string>();

/** Puts a shape among the components of the OpenAPI document, where a name means one of them. */
export function describeShape(name: string, schema: z.ZodType, face: Face): void {
  if (names.has(name)) throw new TypeError(`two shapes are named ${name}`);
  names.add(name);
  registries[face].add(schema, { id: name });
}

/** Every declared shape as JSON Schema 2020-12, which is what OpenAPI 3.1 speaks, by name. */
export function componentSchemas(): Record<string, object> {
  return { ...schemasOf('input'), ...schemasOf('output') };
}

function schemasOf(face: Face): Record<string, object> {
  const { schemas } = z.toJSONSchema(registries[face], {
    io: face,
    uri: (name) => `#/components/schemas/${name}`,
  });
  return Object.fromEntries(
    Object.entries(schemas).map(([name, schema]) => [name, withoutHeading(schema)]),
  );
}

/** Without what names a schema's dialect and address: the document around it says both. */
export function withoutHeading(schema: object): object {
  return Object.fromEntries(
    Object.entries(schema).filter(([key]) => key !== '$schema' && key !== '$id'),
  );
}
