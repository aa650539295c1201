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

export const stepSchema = z.strictObject({
  id,
  name,
  effort: effortSchema,
  skill: id,
  minLevel: z.int().min(1).max(3).default(1),
  crewMin: z.int().min(1).max(20),
  crewMax: z.int().min(1).max(20),
  /** The shortest it can take however many hands, minutes. */
  floorMinutes: z.int().min(0).default(0),
  air: airSchema,
  /** What is applied; required of wet work, null otherwise. */
  material: id.nullable().default(null),
  /** Null: where the part is. */
  space: id.nullable().default(null),
  tools: z.array(z.strictObject({ tool: id, count: z.int().min(1).default(1) })).default([]),
  splittable: z.boolean(),
  breaks: z.enum(['relieved', 'observed']).default('observed'),
});

/** A moment after the earlier step: so many minutes, or a milestone of the film it laid. */
export const momentSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('after'),
    minutes: z
      .int()
      .min(0)
      .max(60 * 24 * 60),
  }),
  z.strictObject({ kind: z.literal('milestone'), milestone: milestoneSchema }),
]);

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

export type Air = z.infer<typeof airSchema>;
export type Effort = z.infer<typeof effortSchema>;
export type Step = z.infer<typeof stepSchema>;
export type Moment = z.infer<typeof momentSchema>;
export type Link = z.infer<typeof linkSchema>;
export type Procedure = z.infer<typeof procedureSchema>;
