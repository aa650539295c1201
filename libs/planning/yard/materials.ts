import { z } from 'zod';
import { MILESTONES } from '#cure/material/material.ts';
import { celsius, id, name } from './scalars.ts';

export const milestoneSchema = z.enum(MILESTONES);

/** Minutes from mixing to the milestone at a constant temperature; ascending temperatures. */
export const cureTableSchema = z.strictObject({
  milestone: milestoneSchema,
  rows: z.array(z.strictObject({ celsius, minutes: z.number().positive() })).min(1),
  source: z.string().min(1).max(300),
});

export const materialSchema = z.strictObject({
  id,
  name,
  resinSystem: z.enum(['polyester', 'vinyl-ester', 'epoxy']),
  minimumC: celsius,
  maximumC: celsius,
  /** Below the minimum: the clock stops, or the film is lost (so it may not be started). */
  belowMinimum: z.enum(['stalls', 'spoils']),
  milestones: z.array(cureTableSchema).min(1),
  cautions: z.array(z.string().max(500)).default([]),
});

export type Milestone = z.infer<typeof milestoneSchema>;
export type MaterialCureTable = z.infer<typeof cureTableSchema>;
export type Material = z.infer<typeof materialSchema>;
