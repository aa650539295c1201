import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { boatSchema } from '#planning/yard/boats.ts';
import { materialSchema } from '#planning/yard/materials.ts';
import { personSchema } from '#planning/yard/people.ts';
import { procedureSchema } from '#planning/yard/procedures.ts';
import { spaceSchema } from '#planning/yard/spaces.ts';
import { choose } from './choose.ts';
import { type JsonSchema, valueOf } from './json-schema.ts';

const jsonSchemaOf = (schema: z.ZodType): JsonSchema =>
  z.toJSONSchema(schema, { io: 'input' }) as JsonSchema;

/** Refinements (a pair's order) are not in a JSON Schema: some of the values break one. */
const shapes: [name: string, schema: z.ZodType, sound: number][] = [
  ['a person', personSchema, 1],
  ['a space', spaceSchema, 1],
  ['a boat', boatSchema, 1],
  ['a procedure', procedureSchema, 1],
  ['a material', materialSchema, 0.7],
];

describe('values made from a JSON Schema', () => {
  it.each(shapes)('fit it: %s', (_name, schema, sound) => {
    const from = jsonSchemaOf(schema);
    const picks = choose(7);
    const made = Array.from({ length: 200 }, () =>
      valueOf(from, {
        schemas: {},
        choose: picks,
        fullness: picks.between(0, 10) / 10,
        text: () => undefined,
      }),
    );
    const faults = made.flatMap((value) => {
      const { error } = schema.safeParse(value);
      return error ? [JSON.stringify(error.issues[0])] : [];
    });
    expect(made.length - faults.length, faults[0]).toBeGreaterThanOrEqual(sound * made.length);
    expect(new Set(made.map((value) => JSON.stringify(value))).size).toBeGreaterThan(50);
  });

  it('refer to records where a field does', () => {
    const value = valueOf(jsonSchemaOf(boatSchema), {
      schemas: {},
      choose: choose(1),
      fullness: 1,
      text: (field) => (field === 'owner' ? 'odile' : undefined),
    });
    expect(value).toMatchObject({ owner: 'odile' });
  });

  it('are the same for the same seed', () => {
    const make = (seed: number): string =>
      JSON.stringify(
        valueOf(jsonSchemaOf(spaceSchema), {
          schemas: {},
          choose: choose(seed),
          fullness: 0.5,
          text: () => undefined,
        }),
      );
    expect(make(3)).toBe(make(3));
    expect(make(3)).not.toBe(make(4));
  });
});
