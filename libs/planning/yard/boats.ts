import { z } from 'zod';
import { id, instant, name } from './scalars.ts';

/** A procedure to be carried out on a part; `after` names jobs (of any part of the refit) that come first. */
export const jobSchema = z.strictObject({
  id,
  procedure: id,
  after: z.array(id).default([]),
  /** Where the procedure's moves to the job's destination take the part. */
  destination: id.nullable().default(null),
  /** Other parts of the refit that its joining steps take as well: the hull under a bulkhead. */
  joins: z.array(id).default([]),
  /** A step that waits for a delivery; null: the job waits for it. */
  waitsFor: z
    .array(z.strictObject({ delivery: id, step: id.nullable().default(null) }))
    .default([]),
  /** When the word that a hold point waits for is expected. */
  words: z.array(z.strictObject({ step: id, expected: instant })).default([]),
});

/** What was there before the refit, or was laid since: the outermost last. */
export const layerSchema = z.strictObject({
  base: z.enum(['polyester', 'vinyl-ester', 'epoxy', 'wood', 'metal', 'foam', 'paint']),
  /** Of the yard's, where it is known. */
  material: id.nullable().default(null),
  surface: z.enum(['inhibited', 'sealed', 'peel-ply', 'bare']).default('bare'),
  waxed: z.boolean().default(false),
  /** Null: long ago, cured through. */
  laidAt: instant.nullable().default(null),
  mm: z.number().positive().max(200).nullable().default(null),
});

export const partSchema = z.strictObject({
  id,
  name,
  /** Where it is before its first move. */
  space: id,
  areaM2: z.number().min(0).max(10_000),
  edgeM: z.number().min(0).max(10_000).default(0),
  jointM: z.number().min(0).max(10_000).default(0),
  /** What it is made of, the outermost last; empty: not known. */
  layers: z.array(layerSchema).default([]),
  jobs: z.array(jobSchema).default([]),
});

export const refitSchema = z.strictObject({
  id,
  name,
  release: instant,
  promised: instant.nullable().default(null),
  /** The only moments it can be handed over, ascending; none: as soon as it is finished. */
  handovers: z.array(instant).default([]),
  weight: z.int().min(1).max(1000).default(1),
  parts: z.array(partSchema).default([]),
});

export const boatSchema = z.strictObject({
  id,
  name,
  owner: id.nullable().default(null),
  refits: z.array(refitSchema).default([]),
});

export type Job = z.infer<typeof jobSchema>;
export type Layer = z.infer<typeof layerSchema>;
export type Part = z.infer<typeof partSchema>;
export type Refit = z.infer<typeof refitSchema>;
export type Boat = z.infer<typeof boatSchema>;
