import { z } from 'zod';
import {
  mixSheetSchema,
  sheetAmountSchema,
  sheetBondSchema,
  sheetCautionSchema,
  sheetShoppingSchema,
} from '#persistence/plan/mix-shape.ts';
import { crewMemberSchema, sheetTaskSchema } from '#persistence/plan/sheet-shape.ts';
import { whenSchema } from '#persistence/plan/when-shape.ts';
import { date } from '#planning/yard/scalars.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

/** All that the crew of a wet task, or of one that prepares for it, takes to the bench. */
export const TaskMixSheet = outputShape(
  'TaskMixSheet',
  z.object({
    planId: z.string(),
    taskId: z.string(),
    task: z.string(),
    boat: z.string(),
    part: z.string(),
    spaceId: z.string(),
    space: z.string(),
    start: whenSchema,
    finish: whenSchema,
    closes: whenSchema
      .nullable()
      .describe(
        'As planned, the window shuts then: the task has to be over. Null: nothing presses.',
      ),
    crew: z.array(crewMemberSchema),
    mix: mixSheetSchema.nullable().describe('Null: it mixes nothing.'),
    bond: sheetBondSchema.nullable(),
    consumables: z.array(sheetAmountSchema),
    film: sheetTaskSchema.shape.film,
    warnings: z.array(z.string()),
    cautions: z.array(sheetCautionSchema).describe('Never to be switched off.'),
    caution: z.string(),
  }),
);

export const MixSheetsQuery = inputShape(
  'MixSheetsQuery',
  z.strictObject({
    day: date.optional().describe('By the yard’s date; left out: all of the plan.'),
  }),
);

export const MixSheets = outputShape(
  'MixSheets',
  z.object({
    planId: z.string(),
    day: date.nullable(),
    items: z.array(TaskMixSheet.schema).describe('By start; tasks that mix something.'),
  }),
);

export const PlanShopping = outputShape(
  'PlanShoppingList',
  z.object({ planId: z.string(), items: z.array(sheetShoppingSchema) }),
);

export type TaskMixSheet = z.output<typeof TaskMixSheet.schema>;
export type MixSheetsQuery = z.output<typeof MixSheetsQuery.schema>;
export type MixSheets = z.output<typeof MixSheets.schema>;
export type PlanShopping = z.output<typeof PlanShopping.schema>;
