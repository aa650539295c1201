import 'reflect-metadata';
import { printType } from 'graphql';
import { expect, test } from 'vitest';
import { z } from 'zod';
import { id, instant } from '#planning/yard/scalars.ts';
import { sampleSchema } from '../testing/sample-schema.ts';
import { patched, patchOf } from './layers.ts';
import { named } from './names.ts';
import { componentSchemas } from './openapi.ts';
import { inputShape, outputShape } from './shape.ts';

const cover = named(
  'Cover',
  z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('film'), hours: z.int() }),
    z.strictObject({ kind: z.literal('peel-ply'), source: z.string().nullable() }),
    z.strictObject({
      kind: z.literal('plies'),
      plies: z.array(z.strictObject({ fabric: z.string(), layers: z.int() })),
    }),
    z.strictObject({
      kind: z.literal('strips'),
      plies: z.array(z.strictObject({ fabric: z.string(), widthMm: z.number() })),
    }),
  ]),
);

const sheet = z.strictObject({
  id,
  at: instant,
  weight: z.number().nullable(),
  grade: z.enum(['dry-fit', 'wet']).default('wet'),
  tags: z.array(z.string()).default([]),
  cover,
  layers: z.array(z.strictObject({ count: z.int().min(1), note: z.string().optional() })),
});

const Sheet = outputShape('Sheet', sheet);
const SheetInput = inputShape('SheetInput', sheet);

test('one declaration gives both faces of GraphQL, defaults optional on the way in only', async () => {
  const schema = await sampleSchema(Sheet, SheetInput);
  const shown = (name: string): string => {
    const type = schema.getType(name);
    return type ? printType(type) : `no ${name}`;
  };
  expect(shown('Sheet')).toBe(`type Sheet {
  id: ID!
  at: Instant!
  weight: Float
  grade: SheetGrade!
  tags: [String!]!
  cover: Cover!
  layers: [SheetLayers!]!
}`);
  expect(shown('SheetInput')).toBe(`input SheetInput {
  id: ID!
  at: Instant!
  weight: Float
  grade: SheetGrade
  tags: [String!]
  cover: CoverInput!
  layers: [SheetLayersInput!]!
}`);
  expect(shown('Cover')).toBe(`type Cover {
  kind: CoverKind!
  hours: Int
  source: String
  plies: [CoverPlies!]
}`);
  // Two lists of one name are shown as one, with what only one of them has left open.
  expect(shown('CoverPlies')).toBe(`type CoverPlies {
  fabric: String!
  layers: Int
  widthMm: Float
}`);
  expect(shown('SheetGrade')).toBe(`enum SheetGrade {
  DRY_FIT
  WET
}`);
  expect(shown('SheetLayers')).toBe(`type SheetLayers {
  count: Int!
  note: String
}`);
});

test('and the OpenAPI schemas, nested ones by reference', () => {
  const { Sheet: output, SheetInput: input, Cover: union } = componentSchemas();
  expect(output).toMatchObject({
    type: 'object',
    additionalProperties: false,
    properties: {
      at: { type: 'string', format: 'date-time' },
      weight: { type: ['number', 'null'] },
      cover: { $ref: '#/components/schemas/Cover' },
      layers: { type: 'array', items: { $ref: '#/components/schemas/SheetLayers' } },
    },
    required: ['id', 'at', 'weight', 'grade', 'tags', 'cover', 'layers'],
  });
  expect(input).toMatchObject({ required: ['id', 'at', 'weight', 'cover', 'layers'] });
  expect(union).toHaveProperty('oneOf.length', 4);
});

test('a patch leaves alone what it does not name, defaults and all', () => {
  const patch = patchOf(sheet).parse({ weight: null });
  expect(patch).toEqual({ weight: null });
  const before = sheet.parse({
    id: 'a',
    at: '2026-11-02T07:00:00Z',
    weight: 2,
    grade: 'dry-fit',
    tags: ['x'],
    cover: { kind: 'film', hours: 1 },
    layers: [],
  });
  expect(patched(before, patch)).toEqual({ ...before, weight: null });
});
