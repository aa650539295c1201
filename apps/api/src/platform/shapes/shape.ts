import { InputType, ObjectType } from '@nestjs/graphql';
import type { z } from 'zod';
import { type AnyClass, declareFields, type Face } from './graphql-fields.ts';
import { named } from './names.ts';
import { describeShape } from './openapi.ts';

/** A class that Nest, GraphQL and OpenAPI know by its name, made from one zod declaration. */
export interface Shape<S extends z.ZodType> {
  new (): z.output<S> & object;
  readonly schema: S;
}

const classes = {
  output: new WeakMap<z.ZodType, AnyClass>(),
  input: new WeakMap<z.ZodType, AnyClass>(),
};

/** What the service answers. `export const Space = outputShape('Space', …)`. */
export function outputShape<S extends z.ZodObject>(name: string, schema: S): Shape<S> {
  return declare(named(name, schema), name, 'output');
}

/** What a caller sends; by convention the name ends in `Input`, `Patch` or `Query`. */
export function inputShape<S extends z.ZodObject>(name: string, schema: S): Shape<S> {
  return declare(schema, name, 'input');
}

function declare<S extends z.ZodType>(schema: S, name: string, face: Face): Shape<S> {
  // eslint-disable-next-line @typescript-eslint/no-extraneous-class -- Nest, GraphQL and OpenAPI go by classes.
  const made = class {
    static readonly schema = schema;
  };
  Object.defineProperty(made, 'name', { value: name });
  classes[face].set(schema, made);
  (face === 'output' ? ObjectType(name) : InputType(name))(made);
  declareFields(made, schema, face, nested);
  describeShape(name, schema, face);
  return made as Shape<S>;
}

function nested(schema: z.ZodType, name: string, face: Face): AnyClass {
  return (
    classes[face].get(schema) ?? declare(schema, face === 'output' ? name : `${name}Input`, face)
  );
}
