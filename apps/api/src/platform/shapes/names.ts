import { z } from 'zod';

const names = new WeakMap<z.ZodType, string>();

/**
 * Gives a nested shape its name in GraphQL and OpenAPI. A shape that is nested without one is
 * named after its place, `PersonShifts` say.
 */
export function named<S extends z.ZodType>(name: string, schema: S): S {
  names.set(schema, name);
  return schema;
}

export function nameOf(schema: z.ZodType, place: string): string {
  const known = names.get(schema);
  if (known !== undefined) return known;
  names.set(schema, place);
  return place;
}

/** `bond-opens` is `BOND_OPENS` among GraphQL's enum names; the value inside stays as it is. */
export function enumName(value: string): string {
  return value.replaceAll(/[^A-Za-z0-9]+/g, '_').toUpperCase();
}

export function capital(word: string): string {
  return word.charAt(0).toUpperCase() + word.slice(1);
}
