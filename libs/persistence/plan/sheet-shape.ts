import { z } from 'zod';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import { milestoneSchema } from '#planning/yard/materials.ts';
import { airSchema } from '#planning/yard/procedures.ts';

/** The stored plan in the yard's words, as it is read back; tied to planning's type below. */
export const whenSchema = z.object({
  at: z.iso.datetime().describe('UTC.'),
  local: z.string().describe('The wall clock of the yard, `2026-11-30T07:00`.'),
});

export const filmMarkSchema = z.object({
  milestone: milestoneSchema,
  words: z.string(),
  when: whenSchema.nullable().describe('Null: not before the plan’s horizon.'),
});

export const sheetWindowSchema = z.object({
  linkId: z.string(),
  toTask: z.string(),
  toName: z.string(),
  kind: z.string().describe('`bond`, `sand`, `tack`, `handle`, `wait`, …'),
  opens: whenSchema.nullable(),
  closes: whenSchema.nullable(),
});

export const mixHintSchema = z.object({
  celsius: z.number(),
  potLifeMinutes: z.number(),
  useWithinMinutes: z.number(),
  batches: z.number(),
  cautions: z.array(z.string()),
});

export const taskStateSchema = z.enum(['waiting', 'working', 'done']);

export const segmentSchema = z.object({ start: whenSchema, finish: whenSchema });
export const crewMemberSchema = z.object({ personId: z.string(), name: z.string() });

export const sheetTaskSchema = z.object({
  id: z.string(),
  name: z.string(),
  refitId: z.string(),
  boatId: z.string(),
  boat: z.string(),
  partId: z.string(),
  part: z.string(),
  jobId: z.string(),
  stepId: z.string(),
  spaceId: z.string(),
  space: z.string(),
  air: airSchema,
  skill: z.string(),
  material: z.string().nullable(),
  state: taskStateSchema,
  start: whenSchema,
  finish: whenSchema,
  segments: z.array(segmentSchema).describe('The working spans from start to finish.'),
  crew: z.array(crewMemberSchema),
  floatMinutes: z.number().nullable().describe('It can slip so far with no boat finishing later.'),
  film: z.array(filmMarkSchema).describe('When what is laid reaches its milestones.'),
  windows: z.array(sheetWindowSchema).describe('What follow-ups must keep to.'),
  mix: mixHintSchema.nullable(),
});

export const chainStepSchema = z.object({
  fromTask: z.string().nullable(),
  toTask: z.string(),
  until: whenSchema,
  reason: z.string(),
  text: z.string(),
});

export const sheetBoatSchema = z.object({
  boatId: z.string(),
  boat: z.string(),
  refitId: z.string(),
  refit: z.string(),
  ownerId: z.string().nullable(),
  promised: whenSchema.nullable(),
  finish: whenSchema,
  earliest: whenSchema.describe('Proved: this one alone cannot finish before.'),
  gapMinutes: z.number().describe('From `earliest` to `finish`.'),
  lateMinutes: z.number(),
  tasks: z.int(),
  chain: z.array(chainStepSchema).describe('Why it takes that long, from the first cause.'),
});

export const rankViewSchema = z.object({
  value: z.number(),
  bound: z.number().describe('No plan can be below it.'),
  gapMinutes: z.number(),
  gap: z.number(),
  proof: z.string(),
});

export const sheetChoiceSchema = z.object({
  id: z.string(),
  name: z.string(),
  partId: z.string(),
  branch: z.string(),
  branchName: z.string(),
});

export const solveStatusSchema = z.enum(['optimal', 'feasible', 'infeasible', 'unknown']);

export const sheetSchema = z.object({
  version: z.literal(1),
  yardId: z.string(),
  yard: z.string(),
  timeZone: z.string(),
  origin: whenSchema,
  horizon: whenSchema,
  status: solveStatusSchema,
  tasks: z.array(sheetTaskSchema),
  choices: z.array(sheetChoiceSchema),
  boats: z.array(sheetBoatSchema),
  lateness: rankViewSchema.nullable(),
  finishes: rankViewSchema.nullable(),
  caution: z.string(),
}) satisfies z.ZodType<PlanSheet>;
