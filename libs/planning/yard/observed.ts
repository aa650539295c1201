import { z } from 'zod';
import { milestoneSchema } from './materials.ts';
import { celsius, id, instant } from './scalars.ts';

const note = z.string().max(500).default('');

/**
 * What a thermometer or logger said in a space: at one moment, or the mean of so many minutes
 * from it on. Two readings of one thing in one space may not overlap.
 */
export const readingSchema = z.strictObject({
  id,
  space: id,
  of: z.enum(['air', 'surface']).default('air'),
  at: instant,
  minutes: z.int().min(0).max(1440).default(0),
  celsius,
  /** Relative humidity of the air, percent. */
  humidity: z.number().min(1).max(100).nullable().default(null),
  note,
});

/**
 * What a builder found on a film (or, for `pot-life`, in the cup) of a material: its milestone
 * reached just then, reached already, or not yet. `sanding`: it sanded dry (`already`) or clogged (`not-yet`).
 */
export const observationSchema = z.strictObject({
  id,
  material: id,
  milestone: milestoneSchema,
  found: z.enum(['just-now', 'already', 'not-yet']),
  space: id,
  /** When it was mixed, or the last of the film laid. */
  laidAt: instant,
  at: instant,
  /** Grams in the cup; of `pot-life` only. */
  grams: z.number().positive().max(100_000).nullable().default(null),
  /** Percent of hardener; null: as the material is mixed in the yard. */
  hardenerPercent: z.number().positive().max(100).nullable().default(null),
  note,
});

export type Reading = z.infer<typeof readingSchema>;
export type Observation = z.infer<typeof observationSchema>;
