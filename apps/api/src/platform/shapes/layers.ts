import { z } from 'zod';

export interface Bare {
  readonly schema: z.ZodType;
  /** Null is a value of it. */
  readonly nullable: boolean;
  /** An input may leave it out. */
  readonly optional: boolean;
}

/** Takes off what only says whether a value may be absent or null. */
export function bare(schema: z.ZodType): Bare {
  if (schema instanceof z.ZodNullable) return { ...bare(inner(schema)), nullable: true };
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault) {
    return { ...bare(inner(schema)), optional: true };
  }
  return { schema, nullable: false, optional: false };
}

function inner(schema: z.ZodNullable | z.ZodOptional | z.ZodDefault): z.ZodType {
  return asType(schema.unwrap());
}

/** zod types children by its core class; every schema made through `z` is the full one. */
export function asType(schema: unknown): z.ZodType {
  if (schema instanceof z.ZodType) return schema;
  throw new TypeError('a shape must be made with the full zod');
}

/** The fields of an object, or of all variants of a discriminated union together. */
export function fieldsOf(schema: z.ZodType): ReadonlyMap<string, z.ZodType> {
  if (schema instanceof z.ZodObject) {
    return new Map(Object.entries(schema.shape).map(([key, field]) => [key, asType(field)]));
  }
  if (schema instanceof z.ZodDiscriminatedUnion) return unionFields(schema);
  throw new TypeError(`a shape is an object or a discriminated union, not ${schema.type}`);
}

/**
 * GraphQL has no unions among inputs, so a union is shown as one type: its discriminator, and
 * the fields of every variant, nullable. Validation stays with the union itself.
 */
function unionFields(union: z.ZodDiscriminatedUnion): ReadonlyMap<string, z.ZodType> {
  const known = unions.get(union);
  if (known) return known;
  const fields = new Map<string, z.ZodType>();
  const kinds: string[] = [];
  for (const option of union.options) {
    for (const [key, field] of fieldsOf(asType(option))) {
      if (key === union.def.discriminator && field instanceof z.ZodLiteral) {
        kinds.push(...[...field.values].map(String));
      } else {
        const before = fields.get(key);
        const own = bare(field).schema;
        fields.set(key, before === undefined ? own : together(before, own));
      }
    }
  }
  const shown = [...fields].map(([key, field]) => [key, field.nullable().optional()] as const);
  const all = new Map<string, z.ZodType>([[union.def.discriminator, z.enum(kinds)], ...shown]);
  unions.set(union, all);
  return all;
}

/** Lists of records, or records, that variants have under one name are shown with the fields of both. */
function together(one: z.ZodType, other: z.ZodType): z.ZodType {
  if (one === other) return one;
  if (one instanceof z.ZodArray && other instanceof z.ZodArray) {
    const [mine, theirs] = [asType(one.element), asType(other.element)];
    const both = together(mine, theirs);
    return both === mine ? one : z.array(both);
  }
  if (!(one instanceof z.ZodObject && other instanceof z.ZodObject)) return one;
  const [mine, theirs] = [fieldsOf(one), fieldsOf(other)];
  const keys = [...new Set([...mine.keys(), ...theirs.keys()])];
  if (keys.length === mine.size && keys.length === theirs.size) return one;
  const entries = keys.map((key) => {
    const [here, there] = [mine.get(key), theirs.get(key)];
    if (here && there) return [key, together(here, there)];
    return [key, (here ?? there)?.nullable().optional()];
  });
  return z.object(Object.fromEntries(entries));
}

/** Asked for once a face; the discriminator's enumeration must be one and the same. */
const unions = new WeakMap<z.ZodType, ReadonlyMap<string, z.ZodType>>();

/**
 * The shape of an update: each field may be left out and then stays as it is; lists are replaced
 * whole. Defaults are taken off, or a field that was not sent would be reset to its default.
 */
export function patchOf<S extends z.ZodObject>(schema: S): PatchSchema<S>;
export function patchOf(schema: z.ZodObject): z.ZodObject {
  const entries = Object.entries(schema.shape).map(([key, field]) => [
    key,
    (field instanceof z.ZodDefault ? asType(field.unwrap()) : asType(field)).optional(),
  ]);
  return z.strictObject(Object.fromEntries(entries));
}

type PatchSchema<S extends z.ZodObject> = z.ZodObject<
  { [K in keyof S['shape']]: z.ZodOptional<WithoutDefault<S['shape'][K]>> },
  z.core.$strict
>;
type WithoutDefault<F> = F extends z.ZodDefault<infer Inner> ? Inner : F;

/** The record with what was sent in place of what was there. */
export function patched<T extends object>(
  current: T,
  patch: { readonly [K in keyof T]?: T[K] | undefined },
): T {
  const sent = Object.entries(patch).filter(([, value]) => value !== undefined);
  return { ...current, ...Object.fromEntries(sent) };
}
