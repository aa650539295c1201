import { Body, type PipeTransform, Query as UrlQuery } from '@nestjs/common';
import { Args } from '@nestjs/graphql';
import { ApiBody, ApiQuery } from '@nestjs/swagger';
import { z } from 'zod';
import { DomainError } from '#kernel/error.ts';
import { shapeFaults } from '#planning/yard/shape-faults.ts';
import { asType, bare, fieldsOf } from './layers.ts';
import { withoutHeading } from './openapi.ts';
import type { Shape } from './shape.ts';

/** Checks a value against its shape; refuses with every fault, its path and its cure. */
export class ShapePipe implements PipeTransform<unknown, unknown> {
  readonly #schema: z.ZodType;
  readonly #before: (value: unknown) => unknown;

  constructor(schema: z.ZodType, before: (value: unknown) => unknown = (value) => value) {
    this.#schema = schema;
    this.#before = before;
  }

  transform(value: unknown): unknown {
    return parseShape(this.#schema, this.#before(value));
  }
}

function parseShape<S extends z.ZodType>(schema: S, value: unknown): z.output<S> {
  const parsed = schema.safeParse(value);
  if (parsed.success) return parsed.data;
  const faults = shapeFaults(value, parsed.error);
  const [first] = faults;
  throw new DomainError(
    'input.field',
    [first.path, first.message].filter((word) => word !== '').join(': '),
    {
      cure: first.cure,
      faults,
    },
  );
}

/**
 * The JSON body of a REST call, checked. None is as good as `{}`: it may be left out where all of
 * its fields may, and else each field that is missing is named.
 */
export function BodyOf<S extends z.ZodObject>(shape: Shape<S>): ParameterDecorator {
  const { schema } = shape;
  const required = !schema.safeParse({}).success;
  return (target, key, index) => {
    Body(new ShapePipe(schema, (sent) => (sent === undefined ? {} : sent)))(target, key, index);
    onMethod(target, key, ApiBody({ type: shape, required }));
  };
}

/** The query of a REST address, checked; the shape turns its text into numbers where it must. */
export function QueryOf<S extends z.ZodObject>(shape: Shape<S>): ParameterDecorator {
  return (target, key, index) => {
    UrlQuery(new ShapePipe(shape.schema))(target, key, index);
    for (const [name, field] of fieldsOf(shape.schema)) {
      const { schema, optional } = bare(field);
      onMethod(target, key, ApiQuery({ name, required: !optional, schema: plainSchema(schema) }));
    }
  };
}

/** The GraphQL argument `input`, checked. */
export function ArgOf<S extends z.ZodObject>(shape: Shape<S>): ParameterDecorator {
  return Args(
    'input',
    { type: () => shape },
    new ShapePipe(shape.schema, withoutNulls(shape.schema)),
  );
}

function onMethod(
  target: object,
  key: string | symbol | undefined,
  decorate: MethodDecorator,
): void {
  if (key === undefined) throw new TypeError('only a method has a body');
  const descriptor = Object.getOwnPropertyDescriptor(target, key);
  if (descriptor) decorate(target, key, descriptor);
}

function plainSchema(schema: z.ZodType): object {
  return withoutHeading(z.toJSONSchema(schema, { io: 'input' }));
}

/**
 * GraphQL clients send null for what they leave out, and every field of a flattened union is
 * nullable there: null is dropped where the shape does not have it as a value.
 */
function withoutNulls(schema: z.ZodType): (value: unknown) => unknown {
  return (value) => {
    const plain = bare(schema).schema;
    if (plain instanceof z.ZodArray && Array.isArray(value)) {
      return value.map(withoutNulls(asType(plain.element)));
    }
    const isShape = plain instanceof z.ZodObject || plain instanceof z.ZodDiscriminatedUnion;
    if (!isShape || typeof value !== 'object' || value === null) return value;
    const fields = plain instanceof z.ZodObject ? fieldsOf(plain) : variantFields(plain, value);
    return Object.fromEntries(
      Object.entries(value).flatMap(([key, item]) => {
        const field = fields.get(key);
        if (item === null && !(field && bare(field).nullable)) return [];
        return [[key, field ? withoutNulls(field)(item) : item]];
      }),
    );
  };
}

function variantFields(
  union: z.ZodDiscriminatedUnion,
  value: object,
): ReadonlyMap<string, z.ZodType> {
  const kind: unknown = Reflect.get(value, union.def.discriminator);
  for (const option of union.options) {
    const fields = fieldsOf(asType(option));
    const field = fields.get(union.def.discriminator);
    if (field instanceof z.ZodLiteral && field.values.has(kind as string)) return fields;
  }
  return new Map();
}
