import { isDeepStrictEqual } from 'node:util';
import { z } from 'zod';

/** Where a default stands in a shape, as `people[].shifts`, and whether a value there is another. */
export type Defaults = Map<string, boolean>;

/**
 * Every default of a shape, with whether any of the values at its place differs from it: what a
 * sample leaves at its default is lost unseen.
 */
export function defaultsOf(
  schema: z.core.$ZodType,
  values: readonly unknown[],
  path = '',
  found: Defaults = new Map(),
): Defaults {
  if (schema instanceof z.ZodDefault) {
    const usual: unknown = schema.def.defaultValue;
    const differs = values.some((value) => !isDeepStrictEqual(value, usual));
    found.set(path, (found.get(path) ?? false) || differs);
    defaultsOf(schema.unwrap(), values, path, found);
  } else if (schema instanceof z.ZodNullable || schema instanceof z.ZodOptional) {
    const there = values.filter((value) => value !== null && value !== undefined);
    defaultsOf(schema.unwrap(), there, path, found);
  } else if (schema instanceof z.ZodArray) {
    const items = values.flatMap((value) => (Array.isArray(value) ? (value as unknown[]) : []));
    defaultsOf(schema.element, items, `${path}[]`, found);
  } else if (schema instanceof z.ZodDiscriminatedUnion) {
    for (const option of schema.options) {
      const kind = valueOf(option instanceof z.ZodObject ? option.shape.kind : undefined);
      const own = values.filter((value) => fieldOf(value, 'kind') === kind);
      defaultsOf(option, own, `${path}<${String(kind)}>`, found);
    }
  } else if (schema instanceof z.ZodObject) {
    for (const [key, field] of Object.entries(schema.shape)) {
      const own = values.map((value) => fieldOf(value, key));
      defaultsOf(field as z.core.$ZodType, own, path === '' ? key : `${path}.${key}`, found);
    }
  }
  return found;
}

const fieldOf = (value: unknown, key: string): unknown =>
  typeof value === 'object' && value !== null
    ? Object.entries(value).find(([k]) => k === key)?.[1]
    : undefined;

const valueOf = (schema: unknown): unknown =>
  schema instanceof z.ZodLiteral ? schema.value : undefined;
