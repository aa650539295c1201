import { z } from 'zod';
import { taskStates } from '#planning/workload/workload.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import { milestoneSchema } from '#planning/yard/materials.ts';
import { airSchema } from '#planning/yard/procedures.ts';
import {
  mixSheetSchema,
  sheetAmountSchema,
  sheetBondSchema,
  sheetCautionSchema,
  sheetMaterialSchema,
  sheetShoppingSchema,
} from './mix-shape.ts';
import { whenSchema } from './when-shape.ts';

/** The stored plan in the yard's words, as it is read back; tied to planning's type below. */
export const filmMarkSchema = z.object({
  milestone: milestoneSchema,
  words: z.string(),
  when: whenSchema
    .nullable()
    .describe('The safe moment that the plan keeps to. Null: not before its horizon.'),
  earliest: whenSchema.nullable().describe('The truth is expected between this …'),
  latest: whenSchema.nullable().describe('… and this.'),
  touchTest: z.string().nullable().describe('How a builder finds out by hand.'),
});

export const sheetWindowSchema = z.object({
  linkId: z.string(),
  toTask: z.string(),
  toName: z.string(),
  kind: z.string().describe('`bond`, `sand`, `tack`, `handle`, `wait`, …'),
  opens: whenSchema.nullable(),
  closes: whenSchema.nullable(),
});

export const taskStateSchema = z.enum(taskStates);

export const segmentSchema = z.object({ start: whenSchema, finish: whenSchema });
export const crewMemberSchema = z.object({ personId: z.string(), name: z.string() });

export const placeSchema = z.object({ spaceId: z.string(), space: z.string() });

export const sheetSlotSchema = z.object({
  listId: z.string(),
  list: z.string(),
  from: whenSchema,
  until: whenSchema,
  price: z.number().describe('Cents; 0 where it is booked already.'),
  bookBy: whenSchema.nullable().describe('Null where it is booked.'),
});

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
  skill: z.string().nullable().describe('Null of a hold point.'),
  material: z.string().nullable(),
  state: taskStateSchema,
  start: whenSchema,
  finish: whenSchema,
  segments: z.array(segmentSchema).describe('The working spans from start to finish.'),
  crew: z.array(crewMemberSchema),
  overtimeMinutes: z.number().describe('Beyond the shifts, of all who are on it together.'),
  cleanedDown: whenSchema.nullable().describe('When brushes and tools are clean.'),
  movesTo: placeSchema.nullable().describe('Where its part is taken.'),
  slot: sheetSlotSchema.nullable(),
  floatMinutes: z.number().nullable().describe('It can slip so far with no boat finishing later.'),
  film: z.array(filmMarkSchema).describe('When what is laid reaches its milestones.'),
  windows: z.array(sheetWindowSchema).describe('What follow-ups must keep to.'),
  mix: mixSheetSchema.nullable(),
  bond: sheetBondSchema.nullable().describe('Of a coat: null where its surface is not known.'),
  consumables: z.array(sheetAmountSchema),
  warnings: z.array(z.string()).describe('To be looked at before work begins.'),
  cautions: z.array(sheetCautionSchema).describe('Never to be switched off.'),
});

/** Where in the yard file something was said. */
export const yardRowSchema = z.object({
  kind: z.string(),
  id: z.string(),
  name: z.string(),
  path: z.string().describe('In the yard file; empty for what the plan was asked for.'),
});

export const chainStepSchema = z.object({
  fromTask: z.string().nullable(),
  toTask: z.string(),
  until: whenSchema,
  reason: z.string(),
  row: yardRowSchema.nullable().describe('What in the yard asks for it.'),
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
  rank: z.enum(['promises', 'finishes', 'money', 'disturbance']),
  value: z.number().describe('Weighted minutes twice, cents, weighted changes.'),
  bound: z.number().describe('No plan that is as good in the ranks before can be below it.'),
  distance: z.number(),
  gap: z.number(),
  proof: z.string(),
});

/** Cents. */
export const sheetMoneySchema = z.object({
  labour: z.number(),
  overtime: z.number(),
  slots: z.number(),
  prices: z.number(),
  climate: z.number().describe('Heaters and tents; not in the total.'),
  total: z.number(),
});

export const sheetMoveSchema = z.object({
  taskId: z.string(),
  published: whenSchema,
  planned: whenSchema.nullable().describe('Null: it is not done any more.'),
  moved: z.boolean(),
  people: z.object({ before: z.array(z.string()), now: z.array(z.string()) }).nullable(),
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
  version: z.literal(3),
  yardId: z.string(),
  yard: z.string(),
  timeZone: z.string(),
  currency: z.string(),
  origin: whenSchema,
  horizon: whenSchema,
  status: solveStatusSchema,
  tasks: z.array(sheetTaskSchema),
  choices: z.array(sheetChoiceSchema),
  boats: z.array(sheetBoatSchema),
  ranks: z.array(rankViewSchema).describe('In order of importance.'),
  money: sheetMoneySchema,
  moved: z.array(sheetMoveSchema).describe('Against the plan that was published then.'),
  shopping: z.array(sheetShoppingSchema).describe('By week and material.'),
  materials: z.array(sheetMaterialSchema).describe('With the numbers that the plan reckoned with.'),
  caution: z.string(),
}) satisfies z.ZodType<PlanSheet>;
