import { z } from 'zod';
import { BASES, MILESTONES, USES } from '#cure/material/material.ts';
import { celsius, id, name } from './scalars.ts';

export const milestoneSchema = z.enum(MILESTONES);

/** How a number of the yard's own sheet may be trusted: printed on the maker's sheet, measured here, or guessed. */
const trustSchema = z.enum(['sheet', 'measured', 'practice']);

/**
 * A number that the yard puts in the place of its class's. `spread` as in the cure library's
 * figures (a factor of at least 1, or degrees and points); null: what its trust gives.
 */
export const figureSchema = z.strictObject({
  value: z.number(),
  source: z.string().min(1).max(300),
  trust: trustSchema.default('sheet'),
  spread: z.number().min(0).max(50).nullable().default(null),
});

const figure = figureSchema.nullable().default(null);

const curve = z.strictObject({ a: z.number().min(0), e: z.number().min(0).max(1_000_000) });

/** An autocatalytic rate model in the place of a table (see `ConversionLaw`); A per minute, E in J/mol. */
export const conversionSchema = z.strictObject({
  k1: curve,
  k2: curve,
  m: z.number().min(0).max(10),
  n: z.number().min(0).max(10),
  initial: z.number().min(0).max(0.5),
  reached: z.number().gt(0).lt(1),
});

/**
 * Minutes from mixing to the milestone at a constant temperature, ascending temperatures; or a
 * rate model (then `rows` is empty).
 */
export const cureTableSchema = z.strictObject({
  milestone: milestoneSchema,
  rows: z.array(z.strictObject({ celsius, minutes: z.number().positive() })),
  conversion: conversionSchema.nullable().default(null),
  source: z.string().min(1).max(300),
  trust: trustSchema.default('sheet'),
  spread: z.number().min(1).max(10).nullable().default(null),
});

const pair = z
  .strictObject({ low: z.number().min(0).max(100), high: z.number().min(0).max(100) })
  .refine(({ low, high }) => low <= high, 'give the lower percentage as `low`');

/** The second part (see the cure library's `Hardener`): of `percent` all fields, of `ratio` only `per100`. */
export const hardenerSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('percent'),
    usual: figure,
    used: z.number().positive().max(100).nullable().default(null),
    warn: pair.nullable().default(null),
    block: pair.nullable().default(null),
    effect: figure,
  }),
  z.strictObject({ kind: z.literal('ratio'), per100: figureSchema }),
]);

/**
 * A material of the yard. With a `classId` it starts from that class of the catalogue, and what
 * is not null here is put in its place; without one everything that its uses need is given here.
 */
export const materialSchema = z.strictObject({
  id,
  name,
  /** A class of the catalogue. */
  classId: id.nullable().default(null),
  resinSystem: z.enum(BASES),
  use: z.enum(USES).nullable().default(null),
  surface: z.enum(['inhibited', 'sealed']).nullable().default(null),
  waxed: z.boolean().nullable().default(null),
  blushes: z.boolean().nullable().default(null),
  /** Null: the class's; needed where there is no class. */
  minimumC: celsius.nullable().default(null),
  maximumC: celsius.nullable().default(null),
  warnBelowC: celsius.nullable().default(null),
  /** Below the minimum: nothing opens any more, or the film is lost (so it may not be started). */
  belowMinimum: z.enum(['stalls', 'spoils']).nullable().default(null),
  milestones: z.array(cureTableSchema).default([]),
  maximumHumidity: figure,
  minimumDewMarginC: figure,
  dampAir: z.enum(['refuse', 'warn']).nullable().default(null),
  preheatHours: figure,
  holdHours: figure,
  hardener: hardenerSchema.nullable().default(null),
  massPower: figure,
  thicknessPower: figure,
  referenceGrams: figure,
  referenceMm: figure,
  resinDensity: figure,
  hardenerDensity: figure,
  mixedDensity: figure,
  gramsPerM2: figure,
  shelfLifeDays: figure,
  /** Where its cans stand, whose air the resin is as warm as; null: where it is used. */
  keptIn: id.nullable().default(null),
  /** Hours behind that air, as a body with one heat store. */
  keptLagHours: z.number().min(0).max(240).default(0),
  /** Its hardener is an isocyanate (two-pack paints, entered as materials of their own). */
  isocyanate: z.boolean().default(false),
  /** On top of the library's, which cannot be taken away. */
  cautions: z.array(z.string().max(500)).default([]),
});

/** A reinforcement: resin in grams per gram of it. */
export const fabricSchema = z.strictObject({
  id,
  name,
  gramsPerM2: z.number().positive().max(5000),
  resinRatio: z.number().positive().max(10),
  /** Held together by a powder or emulsion that styrene has to dissolve, or stitched or woven. */
  binder: z.enum(['none', 'powder', 'styrene-soluble']).default('none'),
  source: z.string().min(1).max(300),
});

export type Milestone = z.infer<typeof milestoneSchema>;
export type MaterialFigure = z.infer<typeof figureSchema>;
export type MaterialCureTable = z.infer<typeof cureTableSchema>;
export type Material = z.infer<typeof materialSchema>;
export type YardFabric = z.infer<typeof fabricSchema>;
