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
import { claimStatusSchema, personSchema, taskStandingSchema } from './people.contract.ts';

const when = whenSchema.nullable();
/** `<job>.<step>`, and so longer than an id may be. */
const taskId = z.string();

/** As planning's ready list has it, beside what the published plan and the claims say. */
const taskFields = {
  taskId,
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
  inOneGo: z.boolean().describe('It cannot be put aside half done.'),
  workMinutes: z
    .number()
    .describe('Of one builder at the nominal rate; of what was put aside, the rest.'),
  state: taskStandingSchema,
  neededBy: when.describe('When the boats need it begun at the latest; the list goes by it.'),
  because: z.string().nullable().describe('What says so: a window, the foreman, the plan.'),
  notes: z
    .array(z.string())
    .describe('What else is to be known before it is taken up, in sentences.'),
  planned: named(
    'PlannedTask',
    z.object({ start: whenSchema, finish: whenSchema, crew: z.array(crewMemberSchema) }),
  )
    .nullable()
    .describe('In the published plan; null where it does not have the task.'),
  plannedForMe: z.boolean(),
  claim: named(
    'HeldBy',
    z.object({
      id: z.string(),
      status: claimStatusSchema,
      crew: z.array(personSchema),
      lapsesAt: instant.nullable().describe('Not started by then, it is free again.'),
    }),
  )
    .nullable()
    .describe('Who holds the task; null while nobody does.'),
  notForMe: z
    .string()
    .nullable()
    .describe('Why the caller cannot take it up: the skill, the holder, the crew that is set.'),
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
    openMinutes: z.int().nullable().describe('How long the window stays open; null: no end.'),
    startBy: when.describe('To be over in time with the largest crew at the nominal rate.'),
    ...briefingSchema.shape,
  }),
);
export type ReadyTask = z.output<typeof ReadyTask.schema>;

export const WaitingTask = outputShape(
  'WaitingTask',
  z.object({
    ...taskFields,
    why: z.string(),
    opens: when.describe('When that is over, where it is known.'),
  }),
);
export type WaitingTask = z.output<typeof WaitingTask.schema>;

export const Ready = outputShape(
  'Ready',
  z.object({
    at: instant.describe('The moment that this is true of.'),
    planId: z.string().nullable().describe('The published plan that gave the order.'),
    readyCount: z.int().describe('Of all that is ready, whether it is listed or not.'),
    ready: z.array(ReadyTask.schema),
    waitingCount: z.int(),
    waiting: z.array(WaitingTask.schema),
    nextCursor: z.string().nullable().describe('`after` of what else waits; null: nothing.'),
  }),
);
export type Ready = z.output<typeof Ready.schema>;

/** Left out: `all` for the foreman, `mine` for a builder. */
const whoseSchema = z.enum(['mine', 'all']).optional();
const first = z.coerce.number().int().min(1).max(1000).default(200);
const after = z.string().max(500).optional();

export const ReadyQuery = inputShape(
  'ReadyQuery',
  z.strictObject({
    whose: whoseSchema,
    first: first.describe('So many at most of what is ready, and of what waits.'),
    after: after.describe('The nextCursor of before: what waits beyond it.'),
  }),
);
export type ReadyQuery = z.output<typeof ReadyQuery.schema>;
