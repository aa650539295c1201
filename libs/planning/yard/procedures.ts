import { z } from 'zod';
import { milestoneSchema } from './materials.ts';
import { id, name } from './scalars.ts';

export const airSchema = z.enum(['clean', 'dusty', 'wet']);

/** Builder-minutes at the nominal rate: fixed + perM2 * area + perEdgeM * edges + perJointM * joints. */
export const effortSchema = z.strictObject({
  fixed: z.number().min(0).default(0),
  perM2: z.number().min(0).default(0),
  perEdgeM: z.number().min(0).default(0),
  perJointM: z.number().min(0).default(0),
  source: z.string().min(1).max(300),
});

const minutes = z
  .int()
  .min(0)
  .max(60 * 24 * 60);

/** A moment after the earlier step: so many minutes, or a milestone of the film it laid. */
export const momentSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('after'), minutes }),
  z.strictObject({ kind: z.literal('milestone'), milestone: milestoneSchema }),
]);

/** Where a part is taken: turned over where it is, to a space, or to the job's destination. */
export const moveSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('turn') }),
  z.strictObject({ kind: z.literal('space'), space: id }),
  z.strictObject({ kind: z.literal('destination') }),
]);

/** As a moment, of the step's own finish and film; or when another step starts or is finished. */
export const holdEndSchema = z.discriminatedUnion('kind', [
  ...momentSchema.options,
  z.strictObject({ kind: z.literal('step'), step: id, anchor: z.enum(['start', 'finish']) }),
]);

/** A mould, clamps, a stand, kept from the step's start until the last of these. */
export const holdSchema = z.strictObject({
  id,
  tool: id,
  count: z.int().min(1).max(1000).default(1),
  until: z.array(holdEndSchema).min(1),
});

/** So much of a stock, in its unit: sized as the effort is. */
export const consumptionSchema = z.strictObject({
  stock: id,
  fixed: z.number().min(0).default(0),
  perM2: z.number().min(0).default(0),
  perEdgeM: z.number().min(0).default(0),
  perJointM: z.number().min(0).default(0),
});

const waste = z.number().min(0).max(100).default(0);

/** How much a wet step mixes, from the part's sizes; `wastePercent` of it stays in cups and brushes. */
export const quantitySchema = z.discriminatedUnion('kind', [
  /** Over the area: plies of fabric, wetted out at each one's resin ratio. */
  z.strictObject({
    kind: z.literal('laminate'),
    plies: z.array(z.strictObject({ fabric: id, layers: z.int().min(1).max(100) })).min(1),
    wastePercent: waste,
  }),
  /** Strips of fabric along the joints, one on the other, each so wide (tabbing). */
  z.strictObject({
    kind: z.literal('tabbing'),
    plies: z.array(z.strictObject({ fabric: id, widthMm: z.number().positive().max(2000) })).min(1),
    wastePercent: waste,
  }),
  /** Over the area; null: the material's grams per square metre. */
  z.strictObject({
    kind: z.literal('coat'),
    gramsPerM2: z.number().positive().max(20_000).nullable().default(null),
    coats: z.int().min(1).max(20).default(1),
    wastePercent: waste,
  }),
  /** Over the area, so thick on average. */
  z.strictObject({
    kind: z.literal('fill'),
    mm: z.number().positive().max(100),
    wastePercent: waste,
  }),
  /** Along the joints, a hollow quarter round in a right angle, on `sides` sides. */
  z.strictObject({
    kind: z.literal('fillet'),
    radiusMm: z.number().positive().max(200),
    sides: z.int().min(1).max(2).default(1),
    wastePercent: waste,
  }),
  /** Along the edges, so wide. */
  z.strictObject({
    kind: z.literal('glue-line'),
    widthMm: z.number().positive().max(1000),
    gramsPerM2: z.number().positive().max(20_000).nullable().default(null),
    wastePercent: waste,
  }),
]);

/** What a step does to make a surface ready for the next material. */
export const preparationSchema = z.strictObject({
  kind: z.enum(['dewax', 'wash', 'abrade', 'extract', 'wipe', 'peel']),
  /** Of `abrade`. */
  grit: z.int().min(16).max(3000).nullable().default(null),
  /** Of `abrade`: how deep it goes, millimetres; null: the surface is keyed and no more. */
  mm: z.number().positive().max(50).nullable().default(null),
  passes: z.int().min(1).max(20).default(1),
});

/** So much of something for each square metre and pass of a kind of preparation. */
export const consumableSchema = z.strictObject({
  id,
  name,
  unit: z.string().trim().min(1).max(20),
  of: preparationSchema.shape.kind,
  perM2: z.number().min(0).max(10_000),
  source: z.string().min(1).max(300),
});

/**
 * A step without a crew (`skill` null, crew 0, no effort) is a hold point: it waits for a word,
 * expected when the job says, or for a slot.
 */
export const stepSchema = z.strictObject({
  id,
  name,
  effort: effortSchema,
  skill: id.nullable(),
  minLevel: z.int().min(1).max(3).default(1),
  crewMin: z.int().min(0).max(20),
  crewMax: z.int().min(0).max(20),
  /** The shortest it can take however many hands, minutes. */
  floorMinutes: z.int().min(0).default(0),
  air: airSchema,
  /** What is applied; required of wet work, null otherwise. */
  material: id.nullable().default(null),
  /** Null: nothing is weighed for it. */
  quantity: quantitySchema.nullable().default(null),
  /** One cup for all of it, without a lap: it has to be spread inside its pot life. */
  oneBatch: z.boolean().default(false),
  /** What it makes ready, in the order in which it does; of work that lays nothing. */
  prepares: z.array(preparationSchema).default([]),
  /** What the film is for, where it matters to what it bonds with. */
  bonding: z.enum(['structural', 'cosmetic']).default('structural'),
  /** Null: where the part is. */
  space: id.nullable().default(null),
  tools: z.array(z.strictObject({ tool: id, count: z.int().min(1).default(1) })).default([]),
  splittable: z.boolean(),
  breaks: z.enum(['relieved', 'observed']).default('observed'),
  /** Minutes of the crew after the film is laid: brushes, gun, masking. Not of splittable work. */
  cleanDownMinutes: z.int().min(0).max(1440).default(0),
  move: moveSchema.nullable().default(null),
  /** False: others may work on the part meanwhile. */
  onPart: z.boolean().default(true),
  /** Takes the parts that the job joins as well. */
  joins: z.boolean().default(false),
  holds: z.array(holdSchema).default([]),
  consumes: z.array(consumptionSchema).default([]),
  /** Puts up or takes away, closes or opens. */
  barrier: z.strictObject({ barrier: id, closes: z.boolean() }).nullable().default(null),
  /** The slot list that it needs a slot of. */
  slots: id.nullable().default(null),
  /** Cents, once: materials, hire. */
  price: z.int().min(0).max(1_000_000_000).default(0),
  /**
   * How long dust may not reach the surface it leaves. Null: a film until it is dust-safe, other
   * work not at all.
   */
  sensitiveUntil: momentSchema.nullable().default(null),
  /** Where any of these steps is done: until the first of them begins, instead. */
  coveredBy: z.array(id).default([]),
});

/**
 * The later step waits for `opens` and may not be later than `closes`.
 * `unknown` sweep: opens from the finish of the earlier to the start of the later, closes
 * from the start of the earlier to the finish of the later. `same` sweep (the follow-up
 * goes over the surface in the same order): start to start and finish to finish, both.
 */
export const linkSchema = z.strictObject({
  id,
  from: id,
  to: id,
  opens: momentSchema.nullable(),
  closes: momentSchema.nullable().default(null),
  sweep: z.enum(['unknown', 'same']).default('unknown'),
});

/** Exactly one branch is done; its steps and links count only then. */
export const choiceSchema = z.strictObject({
  id,
  name,
  branches: z.array(z.strictObject({ id, name, steps: z.array(id), links: z.array(id) })).min(2),
});

export const procedureSchema = z.strictObject({
  id,
  version: z.int().min(1),
  name,
  steps: z.array(stepSchema).min(1),
  links: z.array(linkSchema),
  choices: z.array(choiceSchema).default([]),
});

export type Quantity = z.infer<typeof quantitySchema>;
export type Preparation = z.infer<typeof preparationSchema>;
export type Consumable = z.infer<typeof consumableSchema>;
export type Air = z.infer<typeof airSchema>;
export type Effort = z.infer<typeof effortSchema>;
export type Step = z.infer<typeof stepSchema>;
export type HoldEnd = z.infer<typeof holdEndSchema>;
export type Consumption = z.infer<typeof consumptionSchema>;
export type Moment = z.infer<typeof momentSchema>;
export type Link = z.infer<typeof linkSchema>;
export type Procedure = z.infer<typeof procedureSchema>;
