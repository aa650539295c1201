import { z } from 'zod';
import { celsius, id, name } from './scalars.ts';

const milestones = [
  'pot-life',
  'open-time',
  'gel',
  'tacky-opens',
  'tacky-closes',
  'bond-opens',
  'bond-closes',
  'tack-free',
  'dust-safe',
  'handle',
  'sandable',
  'cured',
] as const;
export const milestoneSchema = z.enum(milestones);

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
