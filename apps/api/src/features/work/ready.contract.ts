import { z } from 'zod';
import {
  mixSheetSchema,
  sheetAmountSchema,
  sheetBondSchema,
  sheetCautionSchema,
} from '#persistence/plan/mix-shape.ts';
import { crewMemberSchema } from '#persistence/plan/sheet-shape.ts';
import { whenSchema } from '#persistence/plan/when-shape.ts';
import { id, instant } from '#planning/yard/scalars.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';
import { claimStatusSchema, personSchema } from './people.contract.ts';

const when = whenSchema.nullable();

/** As planning's ready list has it, beside what the published plan and the claims say. */
const taskFields = {
  taskId: id,
  name: z.string(),
  partId: id,
  part: z.string(),
  boatId: id,
  boat: z.string(),
  refitId: id,
  spaceId: id,
  space: z.string(),
  skill: id.nullable().describe('Null of a hold point: it waits for somebody’s word.'),
  minLevel: z.int(),
  crewMin: z.int(),
  crewMax: z.int(),
  workMinutes: z.number().describe('Of one builder at the nominal rate.'),
  planned: named(
    'PlannedTask',
    z.object({ start: whenSchema, finish: whenSchema, crew: z.array(crewMemberSchema) }),
  )
    .nullable()
    .describe('In the published plan; null where it does not have the task.'),
  plannedForMe: z.boolean(),
  claim: named('HeldBy', z.object({ id, status: claimStatusSchema, crew: z.array(personSchema) }))
    .nullable()
    .describe('Who holds the task; null while nobody does.'),
};

/** What a crew needs to know before it begins, as it would be if it began now. */
export const briefingSchema = z.object({
  mix: mixSheetSchema.nullable().describe('Null: it mixes nothing.'),
  bond: sheetBondSchema.nullable(),
  consumables: z.array(sheetAmountSchema),
  warnings: z.array(z.string()).describe('To be looked at first.'),
  cautions: z.array(sheetCautionSchema).describe('Never to be switched off.'),
});

export const ReadyTask = outputShape(
  'ReadyTask',
  z.object({
    ...taskFields,
    closes: when.describe('The window shuts then: the task has to be over. Null: nothing presses.'),
    startBy: when.describe('To be over in time with the largest crew at the nominal rate.'),
    because: z.string().nullable(),
    ...briefingSchema.shape,
  }),
);
export type ReadyTask = z.output<typeof ReadyTask.schema>;

const WaitingTask = outputShape(
  'WaitingTask',
  z.object({
    ...taskFields,
    why: z.string(),
    opens: when.describe('When that is over, where it is known.'),
  }),
);

export const Ready = outputShape(
  'Ready',
  z.object({
    at: instant.describe('The moment that this is true of.'),
    planId: z.string().nullable().describe('The published plan that gave the order.'),
    ready: z.array(ReadyTask.schema),
    waiting: z.array(WaitingTask.schema),
  }),
);
export type Ready = z.output<typeof Ready.schema>;

/** Left out: `all` for the foreman, `mine` for a builder. */
export const whoseSchema = z.enum(['mine', 'all']).optional();
export type Whose = z.output<typeof whoseSchema>;
export const ReadyQuery = inputShape('ReadyQuery', z.strictObject({ whose: whoseSchema }));
export type ReadyQuery = z.output<typeof ReadyQuery.schema>;
