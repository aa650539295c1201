import { z } from 'zod';
import { id, instant, name } from './scalars.ts';

/** A procedure to be carried out on a part; `after` names jobs (of any part of the refit) that come first. */
export const jobSchema = z.strictObject({
  id,
  procedure: id,
  after: z.array(id).default([]),
});

export const partSchema = z.strictObject({
  id,
  name,
  space: id,
  areaM2: z.number().min(0).max(10_000),
  edgeM: z.number().min(0).max(10_000).default(0),
  jointM: z.number().min(0).max(10_000).default(0),
  jobs: z.array(jobSchema).default([]),
});

export const refitSchema = z.strictObject({
  id,
  name,
  release: instant,
  promised: instant.nullable().default(null),
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
export type Part = z.infer<typeof partSchema>;
export type Refit = z.infer<typeof refitSchema>;
export type Boat = z.infer<typeof boatSchema>;
