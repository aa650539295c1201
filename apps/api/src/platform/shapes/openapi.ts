import { z } from 'zod';
import type { Face } from './graphql-fields.ts';

const registries = {
  input: z.registry<{ id: string }>(),
  output: z.registry<{ id: string }>(),
};

/** Puts a shape among the components of the OpenAPI document. */
export function describeShape(name: string, schema: z.ZodType, face: Face): void {
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
