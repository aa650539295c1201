import { z } from 'zod';
import { mixFabricSchema } from '#persistence/plan/mix-shape.ts';
import { airSchema, stepSchema } from '#planning/yard/procedures.ts';
import { id } from '#planning/yard/scalars.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import { ProcedureDraftInput } from './procedures.contract.ts';
import '../../shape-names.ts';

const size = z.number().min(0).max(10_000).optional();

export const ProcedurePreviewInput = inputShape(
  'ProcedurePreviewInput',
  z.strictObject({
    part: id
      .optional()
      .describe('A part of the yard: its sizes and its space, but for those given.'),
    areaM2: size,
    edgeM: size,
    jointM: size,
    space: id.optional(),
    destination: id.optional().describe('Where moves to the job’s destination go.'),
    version: z.int().min(1).max(1_000_000).optional().describe('Left out: the current one.'),
    draft: ProcedureDraftInput.schema
      .optional()
      .describe('A version that is not saved, in the place of those there are.'),
  }),
);

const way = named('ProcedureWay', z.object({ choice: id, branch: id }));

const wait = named(
  'PreviewWait',
  z.object({
    stepId: id,
    words: z.string(),
    way: way.nullable().describe('Where it holds in one branch only.'),
  }),
);

const mix = named(
  'PreviewMix',
  z.object({
    mixGrams: z.number(),
    filmMm: z.number().nullable(),
    fabrics: z.array(mixFabricSchema),
  }),
);

const task = named(
  'PreviewTask',
  z.object({
    stepId: id,
    name: z.string(),
    isHoldPoint: z.boolean(),
    workMinutes: z.number().describe('Builder-minutes at the nominal rate; 0 of a hold point.'),
    floorMinutes: z.number(),
    cleanDownMinutes: z.number(),
    skill: z.string().nullable().describe('By name.'),
    minLevel: z.int(),
    crewMin: z.int(),
    crewMax: z.int(),
    air: airSchema,
    space: z.string().nullable().describe('By name.'),
    movesTo: z.string().nullable().describe('By name; its own space: it is turned over.'),
    material: z.string().nullable().describe('By name.'),
    mix: mix.nullable(),
    lacks: z.string().nullable().describe('Why nothing can be weighed.'),
    oneBatch: z.boolean(),
    prepares: stepSchema.shape.prepares.unwrap(),
    tools: z.array(named('PreviewTool', z.object({ name: z.string(), count: z.int() }))),
    consumes: z.array(
      named('PreviewStock', z.object({ name: z.string(), amount: z.number(), unit: z.string() })),
    ),
    price: z.int().describe('Cents.'),
    way: way.nullable().describe('Where it is done in one branch only.'),
    waits: z.array(wait),
  }),
);

const choice = named(
  'PreviewChoice',
  z.object({
    id,
    name: z.string(),
    branches: z.array(
      named('PreviewBranch', z.object({ id, name: z.string(), workMinutes: z.number() })),
    ),
  }),
);

export const ProcedurePreview = outputShape(
  'ProcedurePreview',
  z.object({
    procedureId: id,
    version: z.int().nullable().describe('Null: a draft.'),
    name: z.string(),
    areaM2: z.number(),
    edgeM: z.number(),
    jointM: z.number(),
    leastMinutes: z.number().describe('Builder-minutes by the shortest way through the choices.'),
    mostMinutes: z.number(),
    price: z.int().describe('Cents, of all tasks but those of choices.'),
    tasks: z.array(task),
    choices: z.array(choice),
  }),
);

export type ProcedurePreviewInput = z.output<typeof ProcedurePreviewInput.schema>;
export type ProcedurePreview = z.output<typeof ProcedurePreview.schema>;
