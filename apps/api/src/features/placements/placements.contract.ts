import '../../shape-names.ts';
import { z } from 'zod';
import {
  crewMemberSchema,
  segmentSchema,
  sheetTaskSchema,
  yardRowSchema,
} from '#persistence/plan/sheet-shape.ts';
import { whenSchema } from '#persistence/plan/when-shape.ts';
import { id, instant } from '#planning/yard/scalars.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

export const PlacementInput = inputShape(
  'PlacementInput',
  z.strictObject({
    start: instant
      .optional()
      .describe('From when on it may begin, as soon as its people work; unless told as planned.'),
    crew: z.array(id).max(50).optional().describe('The whole crew; nobody: as planned.'),
  }),
);

/** One task of a plan put somewhere else, all others left where they are. Nothing is saved. */
export const TriedPlacement = outputShape(
  'TriedPlacement',
  z.object({
    planId: z.string(),
    taskId: z.string(),
    isPossible: z.boolean().describe('Nothing is against it.'),
    start: whenSchema.describe('The first moment then in which everybody on it works.'),
    finish: whenSchema,
    segments: z.array(segmentSchema).describe('The working spans from start to finish.'),
    crew: z.array(crewMemberSchema),
    against: z
      .array(
        named(
          'AgainstPlacement',
          z.object({
            reason: z.string().describe('`lag:bond`, `builder`, `dust`, `forbidden`, `past`, …'),
            words: z.string(),
            row: yardRowSchema.nullable().describe('What in the yard asks for it.'),
            taskIds: z.array(z.string()).describe('The other tasks that it is about.'),
          }),
        ),
      )
      .describe('What it would break; what is about the task itself first.'),
    effects: z.array(z.string()).describe('What would come of it for its boat.'),
    next: whenSchema
      .nullable()
      .describe('Where it is not possible: the first later start found that is.'),
  }),
);

/** One task as a plan has it. */
export const TaskOfPlan = outputShape(
  'TaskOfPlan',
  z.object({
    planId: z.string(),
    publishedAt: z.iso
      .datetime()
      .nullable()
      .describe('Null unless it is the yard’s published plan.'),
    task: sheetTaskSchema,
    caution: z.string().describe('What a plan cannot know. Never to be switched off.'),
  }),
);

export type TaskOfPlan = z.output<typeof TaskOfPlan.schema>;
export type PlacementInput = z.output<typeof PlacementInput.schema>;
export type TriedPlacement = z.output<typeof TriedPlacement.schema>;
