import { z } from 'zod';
import { chainStepSchema, yardRowSchema } from '#persistence/plan/sheet-shape.ts';
import { whenSchema } from '#persistence/plan/when-shape.ts';
import { instant } from '#planning/yard/scalars.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import './plans.contract.ts';

export const WhyNotEarlierQuery = inputShape(
  'WhyNotEarlierQuery',
  z.strictObject({
    at: instant
      .optional()
      .describe(
        'The start asked about; unless told, or where it is later, a minute before the planned one.',
      ),
  }),
);

export const WhyNotEarlier = outputShape(
  'WhyNotEarlier',
  z.object({
    planId: z.string(),
    taskId: z.string(),
    asked: whenSchema.describe('The start asked about.'),
    steps: z
      .array(chainStepSchema)
      .describe('Everything against it, what lasts longest first; empty where nothing is.'),
  }),
);

export const WhatShortensQuery = inputShape(
  'WhatShortensQuery',
  z.strictObject({
    refit: z
      .string()
      .optional()
      .describe('The refit asked about; unless told all of them, broken promises first.'),
  }),
);

export const WhatShortens = outputShape(
  'WhatShortens',
  z.object({
    planId: z.string(),
    refitId: z.string().nullable(),
    shortenings: z
      .array(
        named(
          'Shortening',
          z.object({
            row: yardRowSchema.describe('What in the yard holds the plan up.'),
            easing: z
              .enum(['one-more', 'without'])
              .describe('Whether one more of it was tried, or doing without it.'),
            refits: z
              .array(
                named(
                  'ShortenedRefit',
                  z.object({
                    refit: z.string(),
                    earlierMinutes: z.int().describe('Below 0: later, for the sake of another.'),
                  }),
                ),
              )
              .describe('Those that would finish at another time.'),
            text: z.string(),
          }),
        ),
      )
      .describe('The largest gain first. What was found: there may be more to gain.'),
  }),
);

export const PlanCheck = outputShape(
  'PlanCheck',
  z.object({
    planId: z.string(),
    problemHash: z.string(),
    problemVersion: z.int().describe('Of the model it was compiled to when the plan was made.'),
    violations: z
      .array(
        named(
          'PlanViolation',
          z.object({
            kind: z.string(),
            message: z.string(),
            taskIds: z.array(z.string()),
            row: yardRowSchema.nullable().describe('What in the yard it is against.'),
          }),
        ),
      )
      .describe('What the plan breaks of the problem it was made for; empty where nothing.'),
  }),
);

export type WhyNotEarlierQuery = z.output<typeof WhyNotEarlierQuery.schema>;
export type WhyNotEarlier = z.output<typeof WhyNotEarlier.schema>;
export type WhatShortensQuery = z.output<typeof WhatShortensQuery.schema>;
export type WhatShortens = z.output<typeof WhatShortens.schema>;
export type PlanCheck = z.output<typeof PlanCheck.schema>;
