import '../../shape-names.ts';
import { z } from 'zod';
import {
  chainStepSchema,
  placeSchema,
  rankViewSchema,
  segmentSchema,
  sheetBoatSchema,
  sheetChoiceSchema,
  sheetMoneySchema,
  sheetMoveSchema,
  sheetSchema,
  sheetSlotSchema,
  sheetTaskSchema,
  sheetWindowSchema,
  solveStatusSchema,
  taskStateSchema,
  yardRowSchema,
} from '#persistence/plan/sheet-shape.ts';
import { date } from '#planning/yard/scalars.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { named } from '../../platform/shapes/names.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

named('CureWindow', sheetWindowSchema);
named('TaskState', taskStateSchema);
named('WorkSpan', segmentSchema);
named('Place', placeSchema);
named('PlanSlot', sheetSlotSchema);
named('YardRow', yardRowSchema);
named('PlanMoney', sheetMoneySchema);
named('PlanMove', sheetMoveSchema);
named('ChainStep', chainStepSchema);
named('PlanRank', rankViewSchema);
named('PlanStatus', solveStatusSchema);
named('PlanTask', sheetTaskSchema);
named('PlanBoat', sheetBoatSchema);
named('PlanChoice', sheetChoiceSchema);

const meta = {
  id: z.string(),
  runId: z.string(),
  createdAt: z.iso.datetime(),
  publishedAt: z.iso.datetime().nullable().describe('Null unless it is the yard’s published plan.'),
};

/** One of a list; times of refits are in `refits`, everything else in the plan itself. */
export const PlanSummary = outputShape(
  'PlanSummary',
  z.object({
    ...meta,
    status: solveStatusSchema,
    lateness: z.number().describe('Weighted minutes late.'),
    finishes: z.number().describe('Weighted finishes, minutes from the beginning.'),
    money: z.number().describe('As the engine counts it; cents are in the plan itself.'),
    disturbance: z.number().describe('Changes against what was published, weighted.'),
    refits: z.array(
      named(
        'PlannedRefit',
        z.object({
          refitId: z.string(),
          promised: z.iso.datetime().nullable(),
          finish: z.iso.datetime(),
        }),
      ),
    ),
  }),
);
export const PlanSummaryPage = pageShape(PlanSummary);

export const Plan = outputShape(
  'Plan',
  z.object({
    ...meta,
    engineVersion: z.string(),
    ...sheetSchema.omit({ version: true }).shape,
    money: sheetMoneySchema.nullable().describe('Null, as its rank is left out, for a builder.'),
  }),
);

export const PlanChains = outputShape(
  'PlanChains',
  z.object({ planId: z.string(), boats: z.array(sheetBoatSchema) }),
);

const weekBy = named('WeekBy', z.enum(['builder', 'space', 'boat']));

export const WeekQuery = inputShape(
  'WeekQuery',
  z.strictObject({
    by: weekBy.default('builder'),
    from: date.optional().describe('The first of seven days; unless told the plan’s first Monday.'),
  }),
);

export const Week = outputShape(
  'Week',
  z.object({
    planId: z.string(),
    weekStart: z.string(),
    weekEnd: z.string(),
    by: weekBy,
    groups: z.array(
      named(
        'WeekGroup',
        z.object({
          id: z.string(),
          name: z.string(),
          rows: z.array(
            named(
              'WeekRow',
              z.object({
                date: z.string(),
                from: z.string().describe('Wall time of the yard.'),
                to: z.string(),
                taskId: z.string(),
                task: z.string(),
                part: z.string(),
                boat: z.string(),
                spaceId: z.string(),
                space: z.string(),
                people: z.array(z.string()),
                air: sheetTaskSchema.shape.air,
                continued: z.boolean().describe('Begun in an earlier stretch.'),
                continues: z.boolean().describe('Ends in a later stretch.'),
              }),
            ),
          ),
        }),
      ),
    ),
  }),
);

export const PublishedPlan = outputShape(
  'PublishedPlan',
  z.object({
    planId: z.string(),
    publishedAt: z.iso.datetime(),
    publishedBy: z.string().nullable(),
    revision,
  }),
);

/** One telling of the yard what to work to. */
export const Publishing = outputShape(
  'Publishing',
  z.object({
    id: z.string(),
    planId: z.string(),
    publishedAt: z.iso.datetime(),
    publishedBy: z.string().nullable().describe('Null: automatically, or before it was kept.'),
  }),
);
export const PublishingPage = pageShape(Publishing);

export type Publishing = z.output<typeof Publishing.schema>;
export type PlanSummary = z.output<typeof PlanSummary.schema>;
export type Plan = z.output<typeof Plan.schema>;
/** With all that is in its sheet. */
export type WholePlan = Plan & { readonly money: z.output<typeof sheetMoneySchema> };
export type PlanChains = z.output<typeof PlanChains.schema>;
export type WeekQuery = z.output<typeof WeekQuery.schema>;
export type Week = z.output<typeof Week.schema>;
export type PublishedPlan = z.output<typeof PublishedPlan.schema>;
